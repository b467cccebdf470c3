import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Report } from '../../src/grading/types';
import { strengthWords } from '../../src/grading/words';
import type { Fault } from '../../src/model/faults';
import { modelTake } from '../../src/model/model-player';
import { gradeTake } from '../../src/take/grade-take';
import { saidOf } from './contradictions';

/** 5,000 of them: `npm run bench agreement`. */
const TAKES = 240;
const FIRST_SEED = 15_000;

describe(`of ${TAKES} model takes of all kinds no two lines of Review, note, term report or command line contradict each other`, () => {
  const groups = 12;
  it.each(Array.from({ length: groups }, (_, group) => group))('part %i', (group) => {
    const found = Array.from({ length: TAKES / groups }, (_, index) => {
      const seed = FIRST_SEED + group * (TAKES / groups) + index;
      return saidOf(seed).map(({ name, words }) => `${seed} ${name}: ${words}`);
    });
    expect(found.flat()).toEqual([]);
  });
});

const WALK = phraseNamed('Single paradiddle, accent walk');
const played = (faults: readonly Fault[]): Report =>
  gradeTake(
    modelTake({ phrase: WALK, bpm: 84, seed: 7, cycles: 6, timingSdMs: 4, surfaces: 2, faults }).take,
  );

describe('what such takes had said', () => {
  // Flams so fast that half the time to the stroke before is their limit; a tempo twice the click's.
  it.each([151_698, 152_769, 15_178, 301_842, 302_052, 302_142])(
    'the take of seed %i: a target that it met already',
    (seed) => {
      expect(saidOf(seed)).toEqual([]);
    },
  );

  it('a slip is as certain as its strokes are many: no band of another fault is said of it', () => {
    const report = played([
      { kind: 'slip', bar: 9, slot: 2, slots: 24 },
      { kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' },
    ]);
    expect(report.sentence).toMatch(/^The pattern slipped/);
    expect(strengthWords(report)).toMatch(/^From \d+ strokes\. /);
  });

  it('a swing is told once, and what holds beside it is as certain as it is', () => {
    const report = played([{ kind: 'swing', percent: 60 }]);
    expect(report.sentence).toMatch(/^You swing.*holds\.$/);
    expect(strengthWords(report)).toMatch(/^From \d+ strokes: (certain|some doubt is left)\. /);
  });
});
