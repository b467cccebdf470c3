import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { writeTake } from '../../src/sessions/take';
import { evenhand, type Ran } from './process';

// Sixty takes of ten students in a folder, one of them cut: what a teacher has after a term.

const folder = mkdtempSync(join(tmpdir(), 'evenhand-batch-'));
const takes = join(folder, 'takes');
const PHRASES = ['Single paradiddle, accent walk', 'Single stroke roll', 'Flam accent'];
/** The last two have one name, and are two. */
const STUDENTS = [
  'Model A',
  'Model B',
  'Model C',
  'Model D',
  'Model E',
  'Model F',
  'Model G',
  'Model H',
  'Model I',
  'Model I',
];
const CUT = 'take 10.take.json';

beforeAll(() => {
  mkdirSync(takes);
  for (let index = 0; index < 60; index += 1) {
    const student = index % 10;
    const { take } = modelTake({
      phrase: phraseNamed(PHRASES[Math.floor(index / 10) % 3]),
      bpm: 80 + index,
      seed: index + 1,
      cycles: 2,
    });
    const text = writeTake({
      ...take,
      id: `t${index}`,
      player: STUDENTS[student],
      playerId: `p${student}`,
      recordedAt: new Date(Date.UTC(2026, 2, 1 + index)).toISOString(),
    });
    const name = `take ${index + 1}.take.json`;
    writeFileSync(join(takes, name), name === CUT ? text.slice(0, 700) : text);
  }
});

const isOneLine = (text: string): boolean => /^[^\n]+\n$/.test(text);
const linesOf = ({ out }: Ran): readonly string[] => out.trimEnd().split(/\r?\n/);
const timeout = 120_000;

describe('a folder of sixty takes, one of them cut', { timeout }, () => {
  it('is graded but for that one: a line on standard error, exit 3', () => {
    const ran = evenhand(['grade', 'takes', '--summary'], { cwd: folder });
    expect(ran.status).toBe(3);
    expect(isOneLine(ran.err)).toBe(true);
    expect(ran.err).toMatch(/^takes\/take 10\.take\.json: line \d+, column \d+ must be JSON/);
    const [head, ...rows] = linesOf(ran);
    expect(head).toMatch(/^day +player +phrase +bpm +clean bars +reason +value +file$/);
    expect(rows).toHaveLength(59);
    // By player, then phrase, then day; the code and no name, and two of one name are two.
    expect(rows.slice(0, 2).map((row) => row.slice(0, 16))).toEqual(['2026-03-01  MA  ', '2026-03-31  MA  ']);
    expect(ran.out).not.toContain('Model');
    expect(rows.filter((row) => / MI2 /.test(row))).toHaveLength(5);
    expect(rows[0]).toMatch(/ 80 +8 of 8 +nothing +takes\/take 1\.take\.json$/);
  });

  it('is checked likewise', () => {
    const ran = evenhand(['check', 'takes'], { cwd: folder });
    expect([ran.status, linesOf(ran).length, isOneLine(ran.err)]).toEqual([3, 59, true]);
    expect(linesOf(ran)[9]).toMatch(/^takes\/take 11\.take\.json: sound/);
  });

  it('stands by player and phrase, and no ceiling is of two players', () => {
    const ran = evenhand(['grade', 'takes'], { cwd: folder });
    expect(ran.status).toBe(3);
    expect(ran.out.match(/^Model A · Single paradiddle, accent walk$/gm)).toHaveLength(1);
    expect(ran.out.match(/^Ceiling of Single stroke roll, Model [A-I], from two takes$/gm)).toHaveLength(10);
    expect(ran.out).not.toMatch(/^Ceiling of .* from (three|four|ten|\d+) takes$/m);
  });

  it('is a list of reports as JSON, of the sound ones', () => {
    const ran = evenhand(['grade', 'takes', '--json'], { cwd: folder });
    expect([ran.status, (JSON.parse(ran.out) as unknown[]).length]).toEqual([3, 59]);
  });

  it('gives no note of several players, and nothing where one is bad', () => {
    const sound = join(folder, 'sound');
    cpSync(takes, sound, { recursive: true, filter: (file) => !file.endsWith(CUT) });
    const mixed = evenhand(['note', 'sound', '--out', 'n.html'], { cwd: folder });
    expect([mixed.status, mixed.out, isOneLine(mixed.err)]).toEqual([3, '', true]);
    expect(mixed.err).toContain('must be of one player for one note: --by-student writes one each');
    const bad = evenhand(['note', 'takes', '--by-student', '--out', 'notes'], { cwd: folder });
    expect([bad.status, bad.out, isOneLine(bad.err)]).toEqual([3, '', true]);
    expect(readdirSync(folder).sort()).toEqual(['sound', 'takes']);
    const each = evenhand(['note', 'sound', '--by-student', '--out', 'notes'], { cwd: folder });
    expect([each.status, each.err, linesOf(each).length]).toEqual([0, '', 10]);
    const names = readdirSync(join(folder, 'notes'));
    expect(names).toContain('note-MA-2026-04-20.html');
    expect(names).toHaveLength(10);
    const page = readFileSync(join(folder, 'notes', 'note-MB-2026-04-21.html'), 'utf8');
    expect(page).toContain('Lesson note for Model B');
    expect(page).not.toContain('Model A');
  });
});

describe('for a spreadsheet', { timeout }, () => {
  const some = ['takes/take 1.take.json', 'takes/take 12.take.json'];

  it('a row a take, numbers rounded to their unit', () => {
    const ran = evenhand(['grade', ...some, '--csv'], { cwd: folder });
    expect([ran.status, ran.err]).toEqual([0, '']);
    const [head, first] = linesOf(ran);
    expect(head).toBe('day,player,phrase,bpm,bpm to,bars,clean bars,reason,variation,value,unit,file');
    expect(first).toBe(
      '2026-03-01,MA,"Single paradiddle, accent walk",80.0,,8,8,nothing,,,,takes/take 1.take.json',
    );
  });

  it('a row a stroke, with velocity and time', () => {
    const ran = evenhand(['grade', some[0], '--csv', 'strokes'], { cwd: folder });
    const [head, first] = linesOf(ran);
    expect(head).toMatch(
      /^file,player,day,phrase,bpm,bar,variation,.*time ms,velocity,level dB,deviation ms$/,
    );
    expect(linesOf(ran)).toHaveLength(1 + 128);
    expect(first).toMatch(
      /^takes\/take 1\.take\.json,MA,2026-03-01,"Single .*",80\.0,1,accent on 1,1,1,R,accent,matched,-?\d+\.\d,\d+,-\d+\.\d,-?\d+\.\d$/,
    );
  });

  it('decimal commas come with semicolons', () => {
    const ran = evenhand(['grade', ...some, '--csv', '--decimal', 'comma'], { cwd: folder });
    expect(linesOf(ran)[1]).toBe(
      '2026-03-01;MA;"Single paradiddle, accent walk";80,0;;8;8;nothing;;;;takes/take 1.take.json',
    );
    expect(evenhand(['grade', some[0], '--decimal', 'comma'], { cwd: folder }).status).toBe(2);
    expect(evenhand(['grade', some[0], '--csv', '--json'], { cwd: folder }).status).toBe(2);
  });
});

describe('help and mistakes', { timeout }, () => {
  it.each(['grade', 'phrases', 'convert', 'note', 'model', 'check'])('%s --help exits 0', (command) => {
    const ran = evenhand([command, '--help']);
    expect([ran.status, ran.err]).toEqual([0, '']);
    expect(ran.out).toMatch(new RegExp(`^evenhand ${command} `));
  });

  it('the nearest option, command and phrase are named', () => {
    expect(evenhand(['grade', 'x', '--sumary']).err).toContain(
      "Unknown option '--sumary'; is --summary meant?",
    );
    expect(evenhand(['grad', 'x']).err).toContain('there is no command "grad"; is "grade" meant?');
    expect(evenhand(['phrases', 'singel paradiddle']).err).toContain('(is "Single paradiddle" meant?)');
    expect(evenhand(['phrases', 'quite another thing']).err).toContain("'evenhand phrases' lists them");
  });

  it('standard input stands for a file, once', () => {
    const input = readFileSync(join(takes, 'take 1.take.json'));
    const ran = evenhand(['grade', '-', '--summary'], { input });
    expect([ran.status, ran.err]).toEqual([0, '']);
    expect(linesOf(ran)[1]).toMatch(/ -$/);
    expect(evenhand(['check', '-'], { input: 'MThd' }).err).toMatch(/^-: byte 0/);
    expect(evenhand(['check', '-', '-'], { input }).status).toBe(2);
  });

  it('a student who is not the takes’ player is a warning', () => {
    const ran = evenhand(['note', 'takes/take 1.take.json', '--out', 'w.md', '--student', 'Model Z'], {
      cwd: folder,
    });
    expect([ran.status, ran.out]).toEqual([0, 'w.md: a note of 1 take\n']);
    expect(ran.err).toBe('note: the takes are those of "Model A", and the note is for "Model Z"\n');
  });

  it('a device that never ends is no file', () => {
    expect(evenhand(['check', '/dev/zero'])).toMatchObject({
      status: 3,
      out: '',
      err: '/dev/zero: must be under 512 MB\n',
    });
  });
});
