import { defineConfig } from 'vite';
import { offline } from './scripts/offline.mjs';

/** The page. `base: './'` lets the built folder be served from any path. */
export default defineConfig({
  base: './',
  plugins: [offline()],
  build: { target: 'es2022', chunkSizeWarningLimit: 800 },
  preview: { host: '127.0.0.1', port: 4173 },
  optimizeDeps: { include: ['webmidi'] },
});
