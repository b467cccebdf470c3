// Bundles a TypeScript file of this project for Node and runs it: `node scripts/run-ts.mjs FILE ARGS…`.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';

const [file, ...args] = process.argv.slice(2);
await bundledAndRun();

async function bundledAndRun() {
  const outDir = mkdtempSync(join('node_modules', '.run-ts-'));
  try {
    await build({
      configFile: false,
      logLevel: 'error',
      build: {
        ssr: file,
        outDir,
        target: 'node20',
        emptyOutDir: true,
        rollupOptions: {
          output: { entryFileNames: 'main.mjs' },
          external: ['playwright', 'typescript', 'vite'],
        },
      },
      ssr: { noExternal: true, external: ['playwright', 'typescript', 'vite'] },
    });
    const run = spawnSync(process.execPath, ['--expose-gc', join(outDir, 'main.mjs'), ...args], {
      stdio: 'inherit',
    });
    process.exitCode = run.status ?? 1;
  } finally {
    rmSync(outDir, { recursive: true, force: true });
  }
}
