import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/cli/check';
import { grade } from '../../src/cli/grade';
import { model } from '../../src/cli/model';
import { phrases } from '../../src/cli/phrases';
import type { Report } from '../../src/grading/types';
import { gradeTake } from '../../src/take/grade-take';
import { readTake, writeTake } from '../../src/sessions/take';

const folder = mkdtempSync(join(tmpdir(), 'evenhand-cli-'));
const STEADY = 'recorded-sessions/steady.take.json';

/** A file with this text, for one test. */
function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

describe('grade', () => {
  it('prints the sentence and a row a variation', () => {
    const printed = grade(['recorded-sessions/left-up-stroke-leaks.take.json']);
    expect(printed.split('\n')[0]).toMatch(/^Accent on 4 is the weak bar: the tap due with the left/);
    expect(printed).toMatch(/^accent on 4 +not yet/m);
  });

  it('counts what was matched, left out and added under the table', () => {
    const take = readTake(readFileSync(STEADY, 'utf8'));
    const lost = [40, 90, 140, 200, 260];
    const kept = take.hits.filter((_, i) => !lost.includes(i));
    // Two strokes half-way between two others, 89 ms from either (a sixteenth at 84 bpm lasts 178.6 ms).
    const added = [300, 400].map((i) => ({ ...take.hits[i], atMs: take.hits[i].atMs + 89, velocity: 70 }));
    const hits = [...kept, ...added].sort((a, b) => a.atMs - b.atMs);
    const path = file('counts.take.json', writeTake({ ...take, hits }));
    expect(grade([path])).toContain('507 of 512 slots matched, 5 missed, 2 extra; offset ');
  });

  it('prints what to play next and when to stop, and nothing of the kind for a steady take', () => {
    const printed = grade(['recorded-sessions/left-up-stroke-leaks.take.json']);
    expect(printed).toMatch(/^Play accent on 4 by itself, .* at 78 bpm: keep the left stick low/m);
    expect(printed).toMatch(/^That is so that .* Stop when the tap due with the left/m);
    expect(grade([STEADY])).not.toMatch(/^Play |Stop when/m);
  });

  it('five notes where four are due have no grade, and say why', () => {
    const path = join(folder, 'five-for-four.take.json');
    const roll = ['--phrase', 'six stroke roll', '--bpm', '120', '--seed', '2', '--cycles', '4'];
    model([...roll, '--fault', 'rate:5/4', '--out', path]);
    expect(grade([path]).split('\n')[0]).toBe(
      'The take does not fit its grid, so it has no grade: another subdivision or tempo was played.',
    );
  });

  it('prints what gives a rotation away', () => {
    expect(grade(['recorded-sessions/left-late.take.json'])).toMatch(
      /gives? .* away.* stroke, \d+ ms (later|earlier)/,
    );
  });

  it('prints ceilings over several files, a phrase and a rig at a time', () => {
    const [slow, fast] = [80, 120].map((bpm) => {
      const path = join(folder, `ceiling-${bpm}.take.json`);
      const spread = bpm === 80 ? [] : ['--fault', 'scatter:30:accent on 4'];
      model([
        '--phrase',
        'single paradiddle, accent walk',
        '--bpm',
        String(bpm),
        '--seed',
        '9',
        '--out',
        path,
        ...spread,
      ]);
      return path;
    });
    const printed = grade([slow, fast]);
    expect(printed).toMatch(/^Ceiling of Single paradiddle, accent walk, from two takes$/m);
    expect(printed).toMatch(/^ {2}accent on 1 +at least 120: nothing faster was played/m);
    expect(printed).toMatch(/^ {2}accent on 4 +clean up to \d+ \(\d+ to \d+\)$/m);
    expect(grade([slow, 'recorded-sessions/left-late.take.json']).match(/^Ceiling of /gm)).toHaveLength(2);
  });

  it('puts advice beside the reports with --json --advice', () => {
    const all = JSON.parse(grade(['recorded-sessions/left-late.take.json', '--json', '--advice'])) as Record<
      string,
      unknown[]
    >;
    expect(Object.keys(all)).toEqual(['reports', 'advice', 'ceilings']);
    expect(Object.keys(all.advice[0] as object)).toEqual([
      'file',
      'rig',
      'remedy',
      'giveaway',
      'identification',
    ]);
    expect(all.advice[0]).toMatchObject({
      remedy: { rule: 'accents off' },
      giveaway: { kind: 'told' },
      identification: { kind: 'told', chance: 0.25 },
    });
    expect(all.ceilings[0]).toMatchObject({ ceiling: { kind: expect.any(String) as string } });
    expect(() => grade([STEADY, '--advice'])).toThrow('--advice goes with --json');
  });

  it('prints the report with --json, several as an array', () => {
    const report = JSON.parse(grade([STEADY, '--json'])) as Report;
    expect(report).toEqual(JSON.parse(JSON.stringify(gradeTake(readTake(readFileSync(STEADY, 'utf8'))))));
    expect(JSON.parse(grade([STEADY, STEADY, '--json']))).toHaveLength(2);
  });

  it.each([
    [
      'cut.take.json',
      readFileSync(STEADY, 'utf8').slice(0, 1500),
      /cut\.take\.json: line \d+, column \d+ must be JSON/,
    ],
    [
      'foreign.take.json',
      '{"format":"song"}',
      /foreign\.take\.json: format must be "evenhand-take", got "song"/,
    ],
    ['newer.take.json', '{"format":"evenhand-take","version":9}', /version must be 1, got 9/],
    ['binary.take.json', '\u0000\u0001\u0002', /line 1, column 1 must be JSON/],
  ])('%s: one line with the file, the place and the rule', (name, text, message) => {
    const path = file(name, text);
    expect(() => grade([path])).toThrow(message);
    expect(() => check([path])).toThrow(message);
  });

  it('names the file that is not there', () => {
    expect(() => grade(['no-such.take.json'])).toThrow('no-such.take.json: cannot be read (ENOENT)');
  });

  it('wants a file, and knows its options', () => {
    expect(() => grade([])).toThrow('grade wants a take file');
    expect(() => grade(['--loud', STEADY])).toThrow('--loud');
  });
});

describe('check', () => {
  it('says what is sound', () => {
    expect(check([STEADY])).toBe(
      `${STEADY}: sound, model take of "Single paradiddle, accent walk", 84 bpm, 512 hits\n`,
    );
  });

  it('names every bad file, not only the first, and the sound ones too', () => {
    const bad = file('bad.take.json', '{}');
    const told: string[] = [];
    const log = { bad: (error: Error) => void told.push(error.message), warn: () => undefined };
    expect(check([bad, STEADY, 'gone.take.json'], log)).toContain(`${STEADY}: sound`);
    expect(told.join()).toMatch(/bad\.take\.json.*gone\.take\.json/);
  });
});

describe('model', () => {
  const args = ['--phrase', 'Single paradiddle, accent walk', '--bpm', '90', '--cycles', '2'];

  it('writes the same take for the same seed, with the fault that was asked for', () => {
    const [a, b] = ['a', 'b'].map((name) => join(folder, `${name}.take.json`));
    model([...args, '--seed', '4', '--fault', 'leak-before:L:6', '--out', a]);
    model([...args, '--seed', '4', '--fault', 'leak-before:L:6', '--out', b]);
    expect(readFileSync(a, 'utf8')).toBe(readFileSync(b, 'utf8'));
    expect(grade([a])).toMatch(/before its accent/);
  });

  it('overwrites nothing without --force', () => {
    const path = file('mine.take.json', 'mine');
    expect(() => model([...args, '--out', path])).toThrow('is there already; --force overwrites it');
    expect(readFileSync(path, 'utf8')).toBe('mine');
    model([...args, '--out', path, '--force']);
    expect(readFileSync(path, 'utf8')).toContain('evenhand-take');
  });

  it.each([
    [['--bpm', '0'], '--bpm must be a tempo from 20 to 400 bpm, got 0'],
    [['--bpm', 'fast'], '--bpm must be a tempo from 20 to 400 bpm, got NaN'],
    [['--seed', '1.5'], '--seed must be an integer'],
    [['--fault', 'wobble:3'], '--fault must be one of'],
    [
      ['--fault', 'leak-before:X:3'],
      '--fault must be written so, got "leak-before:X:3" (leak-before:L:6[:VARIATION])',
    ],
    [['--fault', 'scatter:9:accent on 7'], '--fault must name a variation of the phrase, got "accent on 7"'],
    [['--phrase', 'nothing'], 'phrase must be one of the bundled phrases, got "nothing"'],
  ])('%j: one error, nothing written', (more, message) => {
    const path = join(folder, 'never.take.json');
    expect(() => model([...args, '--out', path, ...more])).toThrow(message);
    expect(existsSync(path)).toBe(false);
  });
});

describe('phrases', () => {
  it('lists and prints', () => {
    expect(phrases([])).toContain('Single paradiddle, accent walk');
    expect(phrases(['single paradiddle, rotations'])).toContain(
      'also called inward paradiddle, first inversion',
    );
    expect(() => phrases(['nothing'])).toThrow('phrase must be one of the bundled phrases');
  });
});
