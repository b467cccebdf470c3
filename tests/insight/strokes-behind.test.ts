import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { gradeTake } from '../../src/take/grade-take';
import { heardTake } from '../../src/state/sounded-take';
import { modelTake } from '../../src/model/model-player';
import { strokesBehind } from '../../src/insight/strokes-behind';

const { take } = modelTake({
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  seed: 4,
  cycles: 8,
  timingSdMs: 3,
  levelSdDb: 0.5,
  faults: [{ kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' }],
});
const report = gradeTake(take);
const accentOn4 = { kind: 'variation', name: 'accent on 4' } as const;

// The truth is the model player's: accents at −4 dB, taps at −20 dB, 6 dB more before the left hand's accent.
describe('the strokes behind a number', () => {
  it('are the left taps before its accent, two a bar in eight bars, and what they are held against', () => {
    const strokes = strokesBehind(report, { measure: 'leakBefore', of: accentOn4, hand: 'L' });
    const before = strokes.filter((one) => one.as === 'before its accent');
    expect(before).toHaveLength(16);
    expect(new Set(before.map(({ slot }) => slot))).toEqual(new Set([7, 15]));
    expect(new Set(strokes.map(({ hand }) => hand))).toEqual(new Set(['L']));
    const mean = before.reduce((sum, { levelDb }) => sum + (levelDb ?? 0), 0) / before.length;
    expect(mean).toBeCloseTo(-14, 0);
    expect(strokes.filter((one) => one.as === 'other soft stroke').length).toBeGreaterThan(0);
  });

  it('name bar and stroke as players count, in the order played', () => {
    const [first, ...rest] = strokesBehind(report, { measure: 'scatter', of: { kind: 'take' } });
    expect(first).toMatchObject({ bar: 1, slot: 1, hand: 'R', variation: 'accent on 1' });
    expect(rest).toHaveLength(511);
    expect(rest.at(-1)).toMatchObject({ bar: 32, slot: 16, hand: 'L' });
  });

  it('have the offset taken off, so that early and late mean the hand and not the rig', () => {
    const strokes = strokesBehind(report, { measure: 'lag', of: { kind: 'take' } });
    const mean = strokes.reduce((sum, { deviationMs }) => sum + (deviationMs ?? 0), 0) / strokes.length;
    expect(Math.abs(mean)).toBeLessThan(1);
  });

  it('of completeness are those that went wrong: none in a take without a miss', () => {
    expect(strokesBehind(report, { measure: 'complete', of: { kind: 'take' } })).toEqual([]);
  });

  it('of a seam are the first strokes of bars after a change: every bar but the first', () => {
    expect(strokesBehind(report, { measure: 'seam', part: 'ms', of: { kind: 'take' } })).toHaveLength(31);
  });

  it('of the gap of doubles are both notes of each double: 4 doubles a bar in a single paradiddle, wrapped ones apart', () => {
    const strokes = strokesBehind(report, {
      measure: 'doubleGap',
      of: { kind: 'variation', name: 'accent on 1' },
    });
    expect(strokes.filter(({ bar }) => bar === 1).map(({ slot }) => slot)).toEqual([
      3, 4, 7, 8, 11, 12, 15, 16,
    ]);
  });
});

describe('a bar of a take as it was played', () => {
  it('sounds its sixteen strokes at their own levels', () => {
    const { notes, lengthMs } = heardTake({ take, report }, { bars: [3], hand: 'both', speed: 'full' });
    expect(notes).toHaveLength(16);
    expect(notes.map(({ by }) => by).join('')).toBe('RLRRLRLLRLRRLRLL');
    expect(notes[6].levelDb).toBe(report.slots[3 * 16 + 6].level);
    // Four beats at 84 bpm.
    expect(lengthMs).toBeCloseTo((4 * 60_000) / 84, 6);
  });

  it('takes twice as long at half speed, with every early and late stroke twice as far off', () => {
    const full = heardTake({ take, report }, { bars: [0], hand: 'both', speed: 'full' });
    const half = heardTake({ take, report }, { bars: [0], hand: 'both', speed: 'half' });
    expect(half.lengthMs).toBeCloseTo(2 * full.lengthMs, 6);
    half.notes.forEach(({ atMs }, index) => expect(atMs).toBeCloseTo(2 * full.notes[index].atMs, 6));
  });

  it('is one hand alone where that is asked', () => {
    const { notes } = heardTake({ take, report }, { bars: [0], hand: 'L', speed: 'full' });
    expect(notes).toHaveLength(8);
  });

  it('rests two beats between bars that did not follow each other', () => {
    const beatMs = 60_000 / 84;
    const together = heardTake({ take, report }, { bars: [0, 1], hand: 'both', speed: 'full' });
    const apart = heardTake({ take, report }, { bars: [0, 2], hand: 'both', speed: 'full' });
    expect(apart.lengthMs - together.lengthMs).toBeCloseTo(2 * beatMs, 6);
  });
});
