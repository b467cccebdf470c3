import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { extentOf } from '../../src/take/extent';

// Sixteenths at 120 bpm: 125 ms a stroke, 2000 ms a bar, 4 bars a cycle, 2 cycles due.
const WALK = { ...phraseNamed('Single paradiddle, accent walk'), cycles: 2 };
const strokes = (count: number, fromMs = 1000): number[] =>
  Array.from({ length: count }, (_, index) => fromMs + 125 * index);
const bars = (strokesMs: number[]): number => extentOf(WALK, { bpm: 120 }, 1000, strokesMs, 62.5).bars;

describe('how far a take was played', () => {
  it('to the end of the cycles due', () => {
    expect(bars(strokes(128))).toBe(8);
  });

  it('to the last whole bar where the player stopped early: to stop is no fault', () => {
    expect(bars(strokes(16 * 3))).toBe(3);
    expect(bars(strokes(16 * 3 + 5))).toBe(3);
    expect(bars(strokes(16 * 3 + 15))).toBe(3);
    // A stroke for the last slot: the bar was played to its end, and what lacks is missed.
    expect(bars([...strokes(16 * 3 + 9), 1000 + 125 * (16 * 4 - 1)])).toBe(4);
  });

  it('without the strokes of the bar that was broken off', () => {
    const { bars: count, untilMs } = extentOf(WALK, { bpm: 120 }, 1000, strokes(16 * 3 + 5), 62.5);
    expect([count, untilMs]).toEqual([3, 1000 + 3 * 2000 - 62.5]);
  });

  it('over a first bar that was broken off: something must be graded', () => {
    expect(bars(strokes(5))).toBe(1);
  });

  it('over the whole last bar due, also where its end is missing: that is missed', () => {
    expect(bars(strokes(16 * 7 + 5))).toBe(8);
  });

  it('on past the cycles due while the player goes on', () => {
    expect(bars(strokes(16 * 11))).toBe(11);
  });

  it('not to a stroke after the end', () => {
    expect(bars([...strokes(128), 60_000])).toBe(8);
    expect(bars([...strokes(128), 1000 + 16_000 + 500])).toBe(8);
  });

  it('over empty bars in the middle', () => {
    expect(bars([...strokes(16), ...strokes(16 * 6, 1000 + 2000 * 2)])).toBe(8);
  });

  it('nowhere where nothing was struck from the downbeat on', () => {
    expect(bars([])).toBe(0);
    expect(bars([10, 500])).toBe(0);
  });

  it('a stroke a little ahead of a bar belongs to it', () => {
    expect(bars([...strokes(16 * 2), 1000 + 4000 - 60])).toBe(2);
    expect(extentOf(WALK, { bpm: 120 }, 1000, [1000 - 60, 1000 + 1900], 62.5).bars).toBe(1);
  });
});
