import { describe, expect, it } from 'vitest';
import { brokenBars } from '../../src/components/review/broken-bars';
import { countWords } from '../../src/components/shared/count-words';
import { figuresOf } from '../../src/grading/figures/named-figures';
import { cellWords, numberWords } from '../../src/components/review/measure-words';
import { phraseNamed } from '../../src/exercises/phrase';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';

const phrase = phraseNamed('Single paradiddle, accent walk');
const figure = (value: number | null) => ({ value, interval: null, n: [32] });

describe('figures in a cell', () => {
  it('name the louder hand, and none where the hands are level', () => {
    expect(cellWords('balanceAccent', null, figure(1.24))).toBe('R +1.2');
    expect(cellWords('balanceSoft', null, figure(-0.04))).toBe('0.0');
  });

  it('say at least where the pad clips, and few where there were too few strokes', () => {
    expect(cellWords('contrast', null, { ...figure(15), atLeast: true })).toBe('≥ 15.0');
    expect(cellWords('fade', null, { ...figure(null), band: 'too few strokes' })).toBe('few');
  });

  it('give complete as percent, clarity as a fraction, lag with its sign', () => {
    expect(numberWords('complete', null, 0.953)).toBe('95.3');
    expect(numberWords('clarity', null, 0.9875)).toBe('0.988');
    expect(numberWords('lag', null, -12)).toBe('−12.0');
  });

  it('the seam stands twice, in time and in level', () => {
    const seam = { ms: figure(12), dB: figure(0.4) };
    expect(figuresOf({ seam }, 'seam').map(({ part }) => part)).toEqual(['ms', 'dB']);
    expect(figuresOf({}, 'seam')).toEqual([]);
    expect(figuresOf({}, 'lag')).toEqual([]);
  });
});

// The truth is the model player's own: two cycles of four bars of sixteen are 128 slots.
describe('what became of a take', () => {
  const { take } = modelTake({ phrase, bpm: 84, seed: 4, cycles: 2, timingSdMs: 3, levelSdDb: 0.5 });

  it('a clean take says only what was played', () => {
    const words = countWords(gradeTake(take));
    expect(words).toMatch(/^128 of 128 slots played\. 8 of 8 bars clean\. Cycles due 2, played 2\./);
  });

  it('a lost stroke is counted and its bar is named, by its number in the bar', () => {
    // Hit 37 is the sixth stroke of the third bar.
    const report = gradeTake({ ...take, hits: take.hits.filter((_, index) => index !== 37) });
    expect(countWords(report)).toMatch(/^127 of 128 slots played, 1 missed\. 7 of 8 bars clean\./);
    expect(brokenBars(report, 4)).toEqual([
      { bar: 3, cycle: 1, variation: 'accent on 3', broke: 'stroke 6 (R) missed' },
    ]);
  });
});
