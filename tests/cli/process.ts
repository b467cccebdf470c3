import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { join } from 'node:path';

/** The command line as a process of its own, as a person or a script runs it. */

const ROOT = join(import.meta.dirname, '../..');
const BUILT = join(ROOT, 'dist-cli/evenhand.js');

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

let isBuilt = false;

/** The built file; built first where a source is newer. */
export function builtCommandLine(): string {
  if (!isBuilt) {
    const { status, stderr } = spawnSync(process.execPath, [join(ROOT, 'scripts/evenhand.mjs'), '--help'], {
      encoding: 'utf8',
    });
    if (status !== 0) throw new Error(`the command line does not build: ${stderr}`);
    isBuilt = true;
  }
  return BUILT;
}

export interface Running {
  /** Where it stands; the checkout where left out. */
  readonly cwd?: string;
  readonly input?: string | Uint8Array;
  /** What the shell says first, `ulimit -f 8` say. */
  readonly first?: string;
}

/** Runs it to its end. */
export function evenhand(args: readonly string[], { cwd = ROOT, input, first }: Running = {}): Ran {
  const built = builtCommandLine();
  const [command, given] =
    first === undefined
      ? [process.execPath, [built, ...args]]
      : ['bash', ['-c', `${first}; exec "$0" "$@"`, process.execPath, built, ...args]];
  const ran = spawnSync(command, given, { cwd, encoding: 'utf8', input, maxBuffer: 256 * 1024 * 1024 });
  return { status: ran.status, out: ran.stdout, err: ran.stderr };
}

/** Starts it, to be interrupted; `ended` is called with its exit code, null where a signal ended it. */
export function started(
  args: readonly string[],
  cwd: string,
): { child: ChildProcess; ended: Promise<number | null> } {
  const child = spawn(process.execPath, [builtCommandLine(), ...args], { cwd, stdio: 'ignore' });
  const ended = new Promise<number | null>((resolve) => {
    child.on('exit', (status) => {
      resolve(status);
    });
  });
  return { child, ended };
}
