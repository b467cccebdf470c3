import { spawn } from 'node:child_process';
import {
  appendFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Change } from './changes';
import { switched } from './choose';

/** A test file, and which bugs it reaches. */
export interface TestFile {
  readonly file: string;
  readonly ms: number;
  readonly reached: ReadonlySet<number>;
}

/** What became of a bug. */
export type Fate =
  | { readonly kind: 'caught'; readonly by: string }
  /** A test never ended. */
  | { readonly kind: 'timed out' }
  | { readonly kind: 'survived'; readonly files: number };

/** A copy of the project with all the bugs in it, all switched off. */
export interface Planted {
  readonly folder: string;
  readonly changes: readonly Change[];
}

const COPIED = [
  'src',
  'tests',
  'bench',
  'scripts',
  'recorded-sessions',
  'schemas',
  'public',
  'docs',
  'package.json',
  'package-lock.json',
  'CHANGELOG.md',
  'tsconfig.json',
  'tsconfig.node.json',
  'index.html',
  'vite.config.ts',
  'vite.cli.config.ts',
  'README.md',
  'DEVELOPERS.md',
];

const BUGS = 'bugs.json';

/** The copy that an earlier run left, with its bugs. */
export function plantedBefore(folder: string): Planted | undefined {
  const list = join(folder, BUGS);
  if (!existsSync(list)) return undefined;
  return { folder, changes: JSON.parse(readFileSync(list, 'utf8')) as readonly Change[] };
}

export function planted(folder: string, changes: readonly Change[]): Planted {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  for (const name of COPIED.filter((one) => existsSync(one))) {
    cpSync(name, join(folder, name), { recursive: true });
  }
  symlinkSync(resolve('node_modules'), join(folder, 'node_modules'));
  writeFileSync(join(folder, 'vitest.config.ts'), CONFIG);
  for (const file of new Set(changes.map((change) => change.file))) {
    const own = changes.flatMap((change, number) =>
      change.file === file ? [[number, change] as const] : [],
    );
    writeFileSync(join(folder, file), switched(readFileSync(file, 'utf8'), own));
  }
  writeFileSync(join(folder, BUGS), JSON.stringify(changes));
  return { folder, changes };
}

/** As the unit tests of the project, but slow is no failure: other work may run beside. */
const CONFIG = `import { defineConfig } from 'vitest/config';
export default defineConfig({
  test: {
    environment: 'node',
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**'],
    testTimeout: 600_000,
    hookTimeout: 600_000,
    setupFiles: ['tests/setup.ts', 'scripts/mutants/record.mjs'],
    maxWorkers: 2,
  },
});
`;

interface Ran {
  /** Null where it had to be stopped. */
  readonly code: number | null;
  readonly out: string;
}

function vitest(
  folder: string,
  args: readonly string[],
  env: NodeJS.ProcessEnv,
  mostMs: number,
): Promise<Ran> {
  return new Promise((done) => {
    const child = spawn(process.execPath, ['node_modules/vitest/vitest.mjs', 'run', ...args], {
      cwd: folder,
      detached: true,
      env: {
        ...process.env,
        ...env,
        NO_COLOR: '1',
        NODE_OPTIONS: `--import ${pathToFileURL(resolve(folder, 'scripts/mutants/switch.mjs')).href}`,
      },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let out = '';
    let stopped = false;
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (out += String(text)));
    const timer = setTimeout(() => {
      stopped = true;
      // Its workers too: they are of its process group.
      if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
    }, mostMs);
    child.on('close', (code) => {
      clearTimeout(timer);
      done({ code: stopped ? null : code, out });
    });
  });
}

const DRY_MOST_MS = 3_600_000;

interface JsonReport {
  readonly testResults: readonly {
    readonly name: string;
    readonly status: string;
    readonly startTime: number;
    readonly endTime: number;
  }[];
}

/**
 * All unit tests once with every bug off: which reach which. Those that fail here are left out and told. In a copy where
 * that was done before, it isn't done again.
 */
export async function testFilesOf({ folder }: Planted): Promise<{ files: TestFile[]; failing: string[] }> {
  const log = join(folder, 'reached.jsonl');
  const json = join(folder, 'dry-run.json');
  if (!existsSync(json)) {
    rmSync(log, { force: true });
    const args = ['--reporter=json', `--outputFile=${resolve(json)}`];
    await vitest(folder, args, { EVENHAND_REACHED: resolve(log) }, DRY_MOST_MS);
  }
  const reachedBy = new Map<string, Set<number>>();
  for (const line of readFileSync(log, 'utf8').trim().split('\n')) {
    const { file, reached } = JSON.parse(line) as { file: string; reached: number[] };
    const all = reachedBy.get(file) ?? new Set<number>();
    reachedBy.set(file, all);
    for (const one of reached) all.add(one);
  }
  const { testResults } = JSON.parse(readFileSync(json, 'utf8')) as JsonReport;
  const root = `${resolve(folder)}/`;
  const name = (path: string): string => path.replace(root, '');
  return {
    files: testResults
      .filter(({ status }) => status === 'passed')
      .map((one) => ({
        file: name(one.name),
        ms: one.endTime - one.startTime,
        reached: reachedBy.get(name(one.name)) ?? new Set<number>(),
      })),
    failing: testResults.filter(({ status }) => status !== 'passed').map((one) => name(one.name)),
  };
}

/** The test beside the file and the few that take no time first, then more and more: most bugs never meet a slow test. */
const LOOKS = [4, 12, 40];
const START_MS = 240_000;
const SLOWER = 10;

function batchesOf(tests: readonly TestFile[]): readonly (readonly TestFile[])[] {
  const edges = [0, ...LOOKS.map((_, look) => LOOKS.slice(0, look + 1).reduce((sum, n) => sum + n, 0))];
  return edges.map((from, look) => tests.slice(from, edges[look + 1])).filter((batch) => batch.length > 0);
}

/** One bug switched on: the tests that reach it, nearest and quickest first, until one fails. */
export async function fateOf(
  { folder, changes }: Planted,
  number: number,
  tests: readonly TestFile[],
): Promise<Fate> {
  const beside = changes[number].file.replace(/^src\//, 'tests/').replace(/\.ts$/, '.test.ts');
  const those = tests
    .filter(({ reached }) => reached.has(number))
    .sort((a, b) => Number(b.file === beside) - Number(a.file === beside) || a.ms - b.ms);
  for (const batch of batchesOf(those)) {
    const mostMs = START_MS + SLOWER * batch.reduce((sum, { ms }) => sum + ms, 0);
    const env = { EVENHAND_MUTANT: String(number) };
    const { code, out } = await vitest(folder, ['--bail=1', ...batch.map(({ file }) => file)], env, mostMs);
    if (code === null) return { kind: 'timed out' };
    if (code !== 0)
      return { kind: 'caught', by: /^ FAIL +(\S+)/m.exec(out)?.[1] ?? 'a test file that broke' };
  }
  return { kind: 'survived', files: those.length };
}

/** What became of the bugs so far, kept in a file a line each. */
export function fatesIn(file: string) {
  const kept = new Map<number, Fate>();
  for (const line of existsSync(file) ? readFileSync(file, 'utf8').trim().split('\n') : []) {
    const { number, fate } = JSON.parse(line) as { number: number; fate: Fate };
    kept.set(number, fate);
  }
  return {
    of: (number: number): Fate | undefined => kept.get(number),
    keep: (number: number, fate: Fate): void => appendFileSync(file, `${JSON.stringify({ number, fate })}\n`),
  };
}
