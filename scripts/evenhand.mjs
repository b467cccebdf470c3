// Runs the command line from a checkout; builds it first when a source is newer than the build. Says nothing of it on
// standard output.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const built = join(root, 'dist-cli/evenhand.js');

function newestOf(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .reduce(
      (newest, entry) => Math.max(newest, statSync(join(entry.parentPath ?? entry.path, entry.name)).mtimeMs),
      0,
    );
}

const newestSource = Math.max(
  newestOf(join(root, 'src')),
  ...['package-lock.json', 'vite.cli.config.ts'].map((file) => statSync(join(root, file)).mtimeMs),
);
if (!existsSync(built) || statSync(built).mtimeMs < newestSource) {
  const vite = join(root, 'node_modules/vite/bin/vite.js');
  const arguments_ = [vite, 'build', '--config', 'vite.cli.config.ts', '--logLevel', 'error'];
  const build = spawnSync(process.execPath, arguments_, { cwd: root, stdio: ['ignore', 2, 2] });
  if (build.status !== 0) process.exit(1);
}
const run = spawnSync(process.execPath, [built, ...process.argv.slice(2)], { stdio: 'inherit' });
process.exit(run.status ?? 1);
