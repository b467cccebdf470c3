import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as waited } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { writeWhole } from '../../src/cli/whole-files';
import { readTake } from '../../src/sessions/take';
import { evenhand, started } from './process';

const WALK = 'Single paradiddle, accent walk';
const folderFor = (): string => mkdtempSync(join(tmpdir(), 'evenhand-whole-'));
const model = (out: string, cycles: number): string[] => [
  'model',
  '--phrase',
  WALK,
  '--bpm',
  '90',
  '--cycles',
  String(cycles),
  '--out',
  out,
];

describe('a full disk (a limit on the size of files stands for it)', { timeout: 60_000 }, () => {
  it('leaves no file, and says which could not be written, in one line', () => {
    const cwd = folderFor();
    const { status, out, err } = evenhand(model('a.take.json', 100), { cwd, first: 'ulimit -f 8' });
    expect([status, out]).toEqual([3, '']);
    expect(err).toBe('a.take.json: cannot be written (the file would be larger than it may be, EFBIG)\n');
    expect(readdirSync(cwd)).toEqual([]);
  });

  it('leaves the old file as it was under --force', () => {
    const cwd = folderFor();
    writeFileSync(join(cwd, 'a.take.json'), 'the old one');
    const { status } = evenhand([...model('a.take.json', 100), '--force'], { cwd, first: 'ulimit -f 8' });
    expect(status).toBe(3);
    expect(readFileSync(join(cwd, 'a.take.json'), 'utf8')).toBe('the old one');
    expect(readdirSync(cwd)).toEqual(['a.take.json']);
  });

  it('two outputs of one command: neither, where the second does not fit', () => {
    const cwd = folderFor();
    const both = ['phrases', 'Flam accent', '--midi', 'a.mid', '--musicxml', 'a.musicxml'];
    // 4 kB: room for the MIDI file, not for the MusicXML.
    const { status, err } = evenhand(both, { cwd, first: 'ulimit -f 4' });
    expect([status, err]).toEqual([3, expect.stringMatching(/^a\.musicxml: cannot be written/)]);
    expect(readdirSync(cwd)).toEqual([]);
    expect(evenhand(both, { cwd }).status).toBe(0);
    expect(readdirSync(cwd).sort()).toEqual(['a.mid', 'a.musicxml']);
  });
});

describe('a signal in the middle', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)(
    '%s: the whole file or the old one, and nothing beside it',
    async (signal) => {
      const cwd = folderFor();
      const file = join(cwd, 'a.take.json');
      const args = [...model('a.take.json', 500), '--force'];
      writeFileSync(file, 'the old one');
      const from = performance.now();
      await started(args, cwd).ended;
      const wholeMs = performance.now() - from;
      let old = 0;
      for (let run = 0; run < RUNS; run += 1) {
        writeFileSync(file, 'the old one');
        const { child, ended } = started(args, cwd);
        // Half of them anywhere, half of them while the file is being written.
        if (run % 2 === 0) await waited((wholeMs * run) / RUNS);
        else await somethingNew(cwd, ended);
        child.kill(signal);
        await ended;
        const text = readFileSync(file, 'utf8');
        if (text === 'the old one') old += 1;
        else expect(readTake(text).hits).toHaveLength(500 * 64);
        expect(readdirSync(cwd)).toEqual(['a.take.json']);
      }
      expect(old).toBeGreaterThan(0);
    },
    120_000,
  );
});

const RUNS = 6;

/** Until a second file is in the folder, or the command has ended. */
async function somethingNew(folder: string, ended: Promise<unknown>): Promise<void> {
  let isOver = false;
  void ended.then(() => {
    isOver = true;
  });
  while (!isOver && readdirSync(folder).length < 2) await waited(0.5);
}

describe('two files', () => {
  it('of one path are refused, however it is written', () => {
    const cwd = folderFor();
    const { status, err } = evenhand(['phrases', WALK, '--midi', 'x', '--musicxml', './y/../x'], { cwd });
    expect(status).toBe(2);
    expect(err).toContain('./y/../x is given twice');
    expect(readdirSync(cwd)).toEqual([]);
    expect(
      evenhand([
        'convert',
        'recorded-sessions/steady.take.json',
        './recorded-sessions/steady.take.json',
        '--force',
      ]),
    ).toMatchObject({ status: 2, out: '' });
  });

  it('are put back where the second can take no place', () => {
    const cwd = folderFor();
    const [a, b] = [join(cwd, 'a'), join(cwd, 'gone', 'b')];
    writeFileSync(a, 'old a');
    expect(() => {
      writeWhole(
        [
          { file: a, content: 'new a' },
          { file: b, content: 'new b' },
        ],
        true,
      );
    }).toThrow('cannot be written (there is no such folder, ENOENT)');
    expect(readFileSync(a, 'utf8')).toBe('old a');
    expect(readdirSync(cwd)).toEqual(['a']);
  });
});

describe('what stands there', () => {
  it('is not overwritten without --force, and keeps its rights with it', () => {
    const cwd = folderFor();
    const file = join(cwd, 'a');
    writeFileSync(file, 'old', { mode: 0o600 });
    expect(() => {
      writeWhole([{ file, content: 'new' }], false);
    }).toThrow(`${file}: is there already; --force overwrites it`);
    expect(readFileSync(file, 'utf8')).toBe('old');
    writeWhole([{ file, content: 'new' }], true);
    expect(readFileSync(file, 'utf8')).toBe('new');
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(readdirSync(cwd)).toEqual(['a']);
  });

  it('stays a link where it is one', () => {
    const cwd = folderFor();
    writeFileSync(join(cwd, 'real'), 'old');
    symlinkSync('real', join(cwd, 'link'));
    writeWhole([{ file: join(cwd, 'link'), content: 'new' }], true);
    expect(lstatSync(join(cwd, 'link')).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(cwd, 'real'), 'utf8')).toBe('new');
  });

  it('is let alone where it is a folder or a device', () => {
    const cwd = folderFor();
    mkdirSync(join(cwd, 'folder'));
    for (const file of [join(cwd, 'folder'), '/dev/null'])
      expect(() => {
        writeWhole([{ file, content: 'new' }], true);
      }).toThrow('is no file that could be overwritten');
    expect(existsSync('/dev/null')).toBe(true);
  });
});
