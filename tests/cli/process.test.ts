import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { build } from 'vite';
import type { Report } from '../../src/grading/types';

// The command line as a process: what commands.md promises of exit codes and of the two outputs.

const BUILT = mkdtempSync(join(tmpdir(), 'evenhand-built-'));
const WORK = mkdtempSync(join(tmpdir(), 'evenhand-process-'));
const STEADY = resolve('recorded-sessions/steady.take.json');
const LEAKS = resolve('recorded-sessions/left-up-stroke-leaks.take.json');
/** Building takes a second or two, and far longer on a busy machine. */
const BUILD_MS = 180_000;

beforeAll(async () => {
  await build({ configFile: 'vite.cli.config.ts', logLevel: 'error', build: { outDir: BUILT } });
}, BUILD_MS);
afterAll(() => {
  for (const folder of [BUILT, WORK]) rmSync(folder, { recursive: true, force: true });
});

let folder = WORK;
beforeEach(() => {
  folder = mkdtempSync(join(WORK, 'case-'));
});

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built command line in a folder of the test's own. */
function evenhand(...args: string[]): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(BUILT, 'evenhand.js'), ...args], {
    cwd: folder,
    encoding: 'utf8',
  });
  return { code: status, out: stdout, err: stderr };
}

function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const STACK_LINE = /^\s+at .+/m;

/** What holds of every bad input: 3, one line on standard error, none of it a stack, nothing on standard output. */
function expectBadInput({ code, out, err }: Ended): void {
  expect(err).not.toMatch(STACK_LINE);
  expect(err.trimEnd().split('\n')).toHaveLength(1);
  expect(out).toBe('');
  expect(code).toBe(3);
}

describe('exit 0', () => {
  it('grades: the report on standard output, nothing on standard error', () => {
    const { code, out, err } = evenhand('grade', LEAKS);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Accent on 4 is the weak bar/);
  });

  it('prints JSON and nothing beside it', () => {
    const { code, out, err } = evenhand('grade', STEADY, '--json');
    expect([code, err]).toEqual([0, '']);
    expect((JSON.parse(out) as Report).format).toBe('evenhand-report');
  });

  it('a take that does not fit the grid is graded, and says so', () => {
    // Played twice as slow as the grid says.
    const take = JSON.parse(readFileSync(STEADY, 'utf8')) as { hits: { atMs: number }[]; downbeatMs: number };
    const hits = take.hits.map((hit, i) => ({
      ...hit,
      atMs: take.downbeatMs + 37.3 * i + 11 * ((i * i) % 7),
    }));
    const path = file('unfit.take.json', JSON.stringify({ ...take, hits: hits.slice(0, 200) }));
    const { code, out } = evenhand('grade', path, '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ fits: false, weakest: null, measures: {} });
  });

  it.each([['--help'], ['help']])('%s prints the usage on standard output', (word) => {
    const { code, out, err } = evenhand(word);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^evenhand COMMAND/);
    for (const command of ['grade', 'phrases', 'convert', 'note', 'model', 'check'])
      expect(out).toMatch(new RegExp(`^  ${command} `, 'm'));
  });

  it.each([
    ['model', ['model', '--phrase', 'Single paradiddle, accent walk', '--bpm', '84'], 'made.take.json'],
    ['note', ['note', STEADY], 'note.html'],
  ])('%s writes the file it was asked for, and only that', (_, args, name) => {
    const { code, err } = evenhand(...args, '--out', name);
    expect([code, err]).toEqual([0, '']);
    expect(readdirSync(folder)).toEqual([name]);
  });

  it('paths are those of the folder one stands in', () => {
    mkdirSync(join(folder, 'takes'));
    expect(evenhand('convert', STEADY, 'takes/steady.mid').code).toBe(0);
    expect(existsSync(join(folder, 'takes', 'steady.mid'))).toBe(true);
    expect(evenhand('check', 'takes/steady.mid').code).toBe(0);
  });
});

describe('exit 2, wrong usage', () => {
  it.each([
    [[], 'a command is wanted'],
    [['sing'], 'there is no command "sing"'],
    [['toString'], 'there is no command "toString"'],
    [['grade'], 'grade wants a take file'],
    [['grade', STEADY, '--loud'], "Unknown option '--loud'"],
    [['grade', STEADY, '--advice'], '--advice goes with --json'],
    [['check'], 'check wants a file'],
    [['convert', STEADY], 'convert wants a take and a file to write'],
    [['convert', STEADY, 'out.wav'], 'convert writes .mid, .csv or .take.json'],
    [['note', STEADY], 'note wants --out'],
    [['note', '--out', 'out.html'], 'note wants a take file'],
    [['model', '--bpm', '84'], 'model wants --phrase, --bpm and --out'],
    [['model', '--phrase'], 'argument'],
    [['phrases', 'one', 'two'], 'phrases takes one name'],
    [['phrases', '--midi', 'out.mid'], '--midi wants the name of a phrase'],
  ])('%j: why and the usage on standard error, nothing written', (args, why) => {
    const { code, out, err } = evenhand(...args);
    expect(err).toContain(why);
    expect(err).toContain('evenhand COMMAND');
    expect(err).not.toMatch(STACK_LINE);
    expect(out).toBe('');
    expect(code).toBe(2);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('exit 3, bad input', () => {
  it.each([
    [
      'a file that is not there',
      () => ['grade', 'gone.take.json'],
      'gone.take.json: cannot be read (ENOENT)',
    ],
    ['a folder without takes', () => ['check', '.'], '.: has no takes (.take.json or .mid)'],
    [
      'a file cut short',
      () => ['grade', file('cut.take.json', readFileSync(STEADY, 'utf8').slice(0, 900))],
      'must be JSON',
    ],
    ['another format', () => ['grade', file('song.take.json', '{"format":"song"}')], 'got "song"'],
    ['a bad library', () => ['check', file('a.library.json', '[]')], 'a.library.json'],
    ['no MIDI in a .mid', () => ['grade', file('a.mid', 'MThd')], 'a.mid'],
    ['no MIDI, checked', () => ['check', file('a.mid', '{}')], 'a.mid: byte 0'],
    ['an unknown phrase', () => ['phrases', 'nothing'], 'phrase must be one of the bundled phrases'],
    ['a tempo that is none', () => ['phrases', 'flam', '--bpm', 'x', '--midi', 'f.mid'], '--bpm must be'],
  ] as const)('%s: one line, no stack', (_, args, why) => {
    const ended = evenhand(...args());
    expectBadInput(ended);
    expect(ended.err).toContain(why);
  });

  it.each([
    ['convert', ['bad.take.json', 'out.mid']],
    ['convert', ['bad.take.json', 'out.csv']],
    ['note', ['bad.take.json', '--out', 'out.html']],
    ['note', [STEADY, 'bad.take.json', '--out', 'out.md']],
    ['model', ['--phrase', 'nothing', '--bpm', '84', '--out', 'out.take.json']],
    ['model', ['--phrase', 'flam', '--bpm', '4000', '--out', 'out.take.json']],
    ['phrases', ['flam', '--midi', 'out.mid', '--bpm', '0']],
    ['phrases', ['flam', '--musicxml', 'missing-folder/out.musicxml']],
  ])('%s %j writes nothing', (command, args) => {
    file('bad.take.json', readFileSync(STEADY, 'utf8').replace('"velocity":', '"loudness":'));
    expectBadInput(evenhand(command, ...args));
    expect(readdirSync(folder)).toEqual(['bad.take.json']);
  });

  it.each([
    ['convert', [STEADY, 'mine.mid']],
    ['note', [STEADY, '--out', 'mine.html']],
    ['model', ['--phrase', 'flam', '--bpm', '84', '--out', 'mine.take.json']],
    ['phrases', ['flam', '--midi', 'mine.mid']],
    ['phrases', ['flam', '--musicxml', 'mine.xml', '--midi', 'new.mid']],
  ])('%s %j leaves a file that is there as it is, but for --force', (command, args) => {
    const name = args.find((arg) => arg.startsWith('mine')) ?? '';
    file(name, 'mine');
    const ended = evenhand(command, ...args);
    expectBadInput(ended);
    expect(ended.err).toContain('is there already; --force overwrites it');
    expect(readdirSync(folder)).toEqual([name]);
    expect(readFileSync(join(folder, name), 'utf8')).toBe('mine');
    expect(evenhand(command, ...args, '--force').code).toBe(0);
    expect(readFileSync(join(folder, name), 'utf8')).not.toBe('mine');
  });
});

describe('exit 1, anything else', () => {
  it('a reader that goes away before all is written, as `| head` does', () => {
    // A report is longer than the 64 KiB that a pipe holds.
    const script = `"$1" "$2" grade "$3" --json 2>errors | head -c 1 >/dev/null; echo "\${PIPESTATUS[0]}"`;
    const { stdout } = spawnSync(
      'bash',
      ['-c', script, '-', process.execPath, join(BUILT, 'evenhand.js'), STEADY],
      { cwd: folder, encoding: 'utf8' },
    );
    expect(stdout.trim()).toBe('1');
    expect(readFileSync(join(folder, 'errors'), 'utf8')).not.toMatch(STACK_LINE);
  });

  it('what nobody foresaw: its message on standard error, no stack', () => {
    // Nothing here is made for a runtime without square roots.
    const broken = file('broken.cjs', "Math.sqrt = () => { throw new TypeError('nobody foresaw this'); };");
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ['--require', broken, join(BUILT, 'evenhand.js'), 'grade', STEADY],
      { cwd: folder, encoding: 'utf8' },
    );
    expect(stderr).toBe('evenhand: nobody foresaw this\n');
    expect(stdout).toBe('');
    expect(status).toBe(1);
  });
});

describe('standard output and error apart', () => {
  it('grading a MIDI file whose phrase is said', () => {
    evenhand('convert', STEADY, 'a.mid');
    const how = ['--phrase', 'Single paradiddle, accent walk', '--bpm', '84'];
    const { code, out, err } = evenhand('grade', 'a.mid', ...how);
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('of 512 slots matched');
  });

  it('check says of each sound file what it is, and of a MIDI file what it carries', () => {
    evenhand('convert', STEADY, 'a.mid');
    evenhand('phrases', 'flam', '--midi', 'flam.mid', '--bpm', '60');
    const { code, out, err } = evenhand('check', STEADY, 'a.mid', 'flam.mid');
    expect([code, err]).toEqual([0, '']);
    // Flam: eight cycles of eight flams, each a grace note and its stroke.
    expect(out.trimEnd().split('\n')).toEqual([
      `${STEADY}: sound, model take of "Single paradiddle, accent walk", 84 bpm, 512 hits`,
      'a.mid: sound, MIDI file with a model take of "Single paradiddle, accent walk", 84 bpm, 512 hits',
      'flam.mid: sound, MIDI file with the phrase "Flam", 60 bpm, 128 notes',
    ]);
  });
});
