// Runs the command line from a checkout; builds it first when a source is newer than the build. Says nothing of it on
// standard output.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { constants } from 'node:os';
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
  if (!isBuilt()) process.exit(1);
}

/** Beside its place first: a build that is interrupted, or a second one meanwhile, leaves no half of a program. */
function isBuilt() {
  const beside = join(root, `dist-cli/.${process.pid}`);
  try {
    const vite = join(root, 'node_modules/vite/bin/vite.js');
    const arguments_ = [vite, 'build', '--config', 'vite.cli.config.ts', '--logLevel', 'error'];
    const build = spawnSync(process.execPath, [...arguments_, '--outDir', beside, '--emptyOutDir'], {
      cwd: root,
      stdio: ['ignore', 2, 2],
    });
    if (build.status !== 0) return false;
    const files = readdirSync(beside).filter((file) => file !== 'evenhand.js');
    for (const file of [...files, 'evenhand.js'])
      renameSync(join(beside, file), join(root, 'dist-cli', file));
    return true;
  } finally {
    rmSync(beside, { recursive: true, force: true });
  }
}

// `npm run` stands in the checkout; relative paths are those of the folder the person stands in.
const cwd = process.env.npm_lifecycle_event === 'evenhand' ? process.env.INIT_CWD : undefined;
const run = spawnSync(process.execPath, [built, ...process.argv.slice(2)], { stdio: 'inherit', cwd });
// What a shell says of a command that a signal ended: 130 for Ctrl-C.
process.exit(run.status ?? 128 + (constants.signals[run.signal] ?? 0));
