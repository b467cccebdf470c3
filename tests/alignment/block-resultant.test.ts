import { describe, expect, it } from 'vitest';
import { blockResultant } from '../../src/alignment/block-resultant';
import { ACCENT_ON_1, sixteenths } from './made';

// Sixteen slots a bar, eight a half bar. Of two phases a share p of the gap apart the resultant is cos(πp) (arithmetic).
const grid = sixteenths([ACCENT_ON_1], 4);
const all = Int32Array.from({ length: 64 }, (_, i) => i);
const resultant = (gapOf: (slot: number) => number, slots = all): number | undefined =>
  blockResultant(grid, Float64Array.from(slots, gapOf), slots);

describe('resultant of half bars', () => {
  it('is 1 where all of a half bar lies alike, though the half bars differ', () => {
    expect(resultant((slot) => 0.2 * Math.floor(slot / 8))).toBeCloseTo(1, 12);
  });

  it('two phases a quarter of a gap apart: cos 45°', () => {
    expect(resultant((slot) => (slot % 2) * 0.25)).toBeCloseTo(Math.SQRT1_2, 12);
  });

  it('is the middle one of the half bars', () => {
    expect(resultant((slot) => (slot < 24 ? (slot % 2) * 0.5 : 0))).toBeCloseTo(1, 12);
    expect(resultant((slot) => (slot < 40 ? (slot % 2) * 0.5 : 0))).toBeCloseTo(0, 12);
  });

  it('leaves out half bars with under a quarter of the bar’s slots', () => {
    expect(resultant(() => 0, all.slice(0, 3))).toBeUndefined();
    expect(resultant(() => 0, all.slice(0, 4))).toBeCloseTo(1, 12);
  });
});
