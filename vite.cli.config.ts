import { defineConfig } from 'vite';

/** The command line: one file that Node runs by itself. */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: 'src/cli/evenhand.ts',
    outDir: 'dist-cli',
    target: 'node20',
    rollupOptions: { output: { entryFileNames: 'evenhand.js' } },
  },
  ssr: { noExternal: true },
});
