import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { seeded } from '../../../src/exercises/seeded';
import { builtCommandLine } from '../process';
import { damaged } from './damage';
import { goodFiles } from './good-files';

/** What a process came to. */
interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
  readonly tookMs: number;
  readonly memoryMb: number;
}

export interface Fuzzed {
  readonly cases: number;
  readonly refused: number;
  readonly processes: number;
  readonly slowestMs: number;
  readonly mostMemoryMb: number;
  /** What broke a promise: the file, or the files of a batch, and how. */
  readonly broken: readonly string[];
}

/** Files of one process: a start costs more than many small files. */
const BATCH = 100;
/** A batch of a hundred files that are bad in every way; a machine that others use too. */
export const MOST_MS = 60_000;
export const MOST_MB = 700;
/** Writes the most memory that the process held to a pipe of its own. */
const MEMORY = `data:text/javascript,import{writeSync}from'node:fs';process.on('exit',()=>writeSync(3,String(process.resourceUsage().maxRSS)))`;
const SOUND = /: sound, /;

/**
 * Damaged files of every format through the command line as a process. What it promises of each: it is called sound or it is
 * one line on standard error that begins with its name; exit 0 or 3, never a stack trace; what `check` calls sound `grade` and
 * `convert` take; a bad file stops none of the others; time and memory have a bound.
 * @param folder an empty one, for the files
 */
export function fuzzed(cases: number, seed: number, folder: string): Fuzzed {
  const random = seeded(seed);
  const ended: Ended[] = [];
  const broken: string[] = [];
  let refused = 0;
  for (let from = 0; from < cases; from += BATCH) {
    const files: string[] = [];
    for (let index = from; index < Math.min(cases, from + BATCH); index += 1) {
      const good = goodFiles[Math.floor(random() * goodFiles.length)];
      const name = `f${index}.${good.ending}`;
      writeFileSync(join(folder, name), damaged(good, random));
      files.push(name);
    }
    const checked = run(['check', ...files], folder);
    const bad = new Set(
      files.filter((file) => checked.err.split('\n').some((line) => line.startsWith(`${file}`))),
    );
    refused += bad.size;
    broken.push(...brokenOf('check', checked, files, bad));
    for (const file of files) {
      const isSound = checked.out
        .split('\n')
        .some((line) => line.startsWith(`${file}: `) && SOUND.test(line));
      if (isSound === bad.has(file)) broken.push(`${file}: check says ${isSound ? 'both' : 'neither'}`);
    }
    const takes = files.filter((file) => /\.(take\.json|mid)$/.test(file));
    const graded = run(['grade', ...takes, '--json'], folder);
    const ungraded = new Set(
      takes.filter((file) => graded.err.split('\n').some((line) => line.startsWith(file))),
    );
    broken.push(...brokenOf('grade', graded, takes, ungraded));
    for (const file of takes) {
      // A MIDI file without a phrase is sound, and has nothing to be graded by.
      const hasPhrase = !checked.out.includes(`${file}: sound, MIDI file without a phrase`);
      if (!bad.has(file) && hasPhrase && ungraded.has(file))
        broken.push(`${file}: check calls it sound, grade refuses it`);
    }
    const convertible = takes.filter((file) => !bad.has(file) && file.endsWith('.take.json')).slice(0, 1);
    for (const file of convertible) {
      const converted = run(['convert', file, `${file}.mid`], folder);
      if (converted.status !== 0)
        broken.push(`${file}: check calls it sound, convert says ${converted.err.trim()}`);
      ended.push(converted);
    }
    ended.push(checked, graded);
    // Those that broke nothing are of no use.
    const kept = broken.join('\n');
    for (const name of readdirSync(folder)) if (!kept.includes(name)) rmSync(join(folder, name));
  }
  return {
    cases,
    refused,
    processes: ended.length,
    slowestMs: Math.max(...ended.map(({ tookMs }) => tookMs)),
    mostMemoryMb: Math.max(...ended.map(({ memoryMb }) => memoryMb)),
    broken,
  };
}

/** An empty folder under another. */
export function emptied(folder: string): string {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  return folder;
}

function brokenOf(
  command: string,
  { status, err, tookMs, memoryMb }: Ended,
  files: readonly string[],
  bad: ReadonlySet<string>,
): string[] {
  const lines = err.split('\n').filter((line) => line !== '');
  const what = `${command} ${files[0]}…${files.at(-1) ?? ''}`;
  const broken: string[] = [];
  if (status !== (bad.size > 0 ? 3 : 0)) broken.push(`${what}: exit ${String(status)}, ${err.slice(0, 300)}`);
  if (/^\s+at .*:\d+/m.test(err)) broken.push(`${what}: a stack trace`);
  // Every other control character stands for something that a terminal obeys.
  if (/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/.test(err)) broken.push(`${what}: a control character`);
  for (const file of bad) {
    if (lines.filter((line) => line.startsWith(file)).length !== 1)
      broken.push(`${file}: ${command} says more than a line`);
  }
  if (lines.length !== bad.size) broken.push(`${what}: ${lines.length} lines for ${bad.size} bad files`);
  if (tookMs > MOST_MS) broken.push(`${what}: ${tookMs.toFixed(0)} ms`);
  if (memoryMb > MOST_MB) broken.push(`${what}: ${memoryMb.toFixed(0)} MB`);
  return broken;
}

function run(args: readonly string[], cwd: string): Ended {
  const from = performance.now();
  const { status, output } = spawnSync(process.execPath, ['--import', MEMORY, builtCommandLine(), ...args], {
    cwd,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
    maxBuffer: 1024 * 1024 * 1024,
    timeout: 2 * MOST_MS,
  });
  const [, out, err, kilobytes] = output.map((text) => text ?? '');
  return { status, out, err, tookMs: performance.now() - from, memoryMb: Number(kilobytes) / 1024 };
}
