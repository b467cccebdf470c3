// Builds the page, finds (or installs) a browser and drives the built page in it.
import { spawnSync } from 'node:child_process';
import { findOrInstallChromium } from './chromium.mjs';

let path;
try {
  path = findOrInstallChromium();
} catch (error) {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
}

const env = { ...process.env, CHROMIUM_PATH: path };
const node = (...args) => spawnSync(process.execPath, args, { stdio: 'inherit', env }).status ?? 1;

const built =
  node('node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn') ||
  node('node_modules/vite/bin/vite.js', 'build', '--config', 'vite.cli.config.ts', '--logLevel', 'warn');
process.exit(
  built || node('node_modules/vitest/vitest.mjs', 'run', '--project', 'browser', ...process.argv.slice(2)),
);
