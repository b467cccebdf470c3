import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { align } from '../../src/alignment/align';
import { resultantLength } from '../../src/alignment/fit';
import {
  circularOffset,
  kernel,
  limitUnder,
  loudestLevel,
  offsetCandidates,
  offsetCost,
} from '../../src/alignment/offset';
import { targetsOf } from '../../src/alignment/targets';
import { gridOf } from '../../src/exercises/grid';
import { settingsOf } from '../../src/settings';
import { ACCENT_ON_1, ACCENT_ON_2, ACCENTS_OFF, perfect, phraseOf, sixteenths } from './made';

const settings = settingsOf('working');

describe('circular statistics', () => {
  // check-values 5d: example data of the astropy 5.2.1 documentation; scipy agrees.
  const degrees = Float64Array.of(51, 67, 40, 109, 31, 358);

  it('the mean direction of 51, 67, 40, 109, 31 and 358 degrees is 48.627181', () => {
    expect(circularOffset(degrees, 0, 360)).toBeCloseTo(48.627181, 6);
  });

  it('their mean resultant length is 0.836436', () => {
    expect(resultantLength(degrees.map((angle) => angle / 360))).toBeCloseTo(0.836436, 6);
  });

  it('evenly spread angles have none', () => {
    for (const n of [2, 3, 4, 8]) {
      expect(resultantLength(Float64Array.from({ length: n }, (_, i) => i / n))).toBeLessThan(1e-15);
    }
  });

  it('a constant shift moves the mean by as much and leaves the length: 10 ms of 125 are 28.8 degrees', () => {
    // check-values 5d: a shift s changes the mean angle by 2π·s/T.
    const times = Float64Array.of(3, 128, 247, 380);
    const before = circularOffset(times, 0, 125);
    const after = circularOffset(
      times.map((at) => at + 10),
      0,
      125,
    );
    expect(((after - before) / 125) * 360).toBeCloseTo(28.8, 9);
    const length = (shift: number): number => resultantLength(times.map((at) => (at + shift) / 125));
    expect(length(10)).toBeCloseTo(length(0), 12);
  });
});

describe('the offset of a take', () => {
  const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 4);
  const shifted = (ms: number) => perfect(grid).map((one) => ({ ...one, atMs: one.atMs + ms }));

  it.each([0, 12, -12, 56, -56, 75, -75, 93, -93])(
    '%d ms is found, up to three quarters of a gap of 125 ms',
    (ms) => {
      const { offsetMs, outcomes } = align(grid, shifted(ms), settings);
      expect(offsetMs).toBeCloseTo(ms, 6);
      expect(outcomes.every((outcome, i) => outcome.status === 'matched' && outcome.stroke === i)).toBe(true);
    },
  );

  it('0.8 of a gap is out of reach and reads as 0.2 early', () => {
    expect(align(grid, shifted(100), settings).offsetMs).toBeCloseTo(-25, 6);
  });

  it('without accents misses and extras decide, and of equal ones the smaller offset', () => {
    const plain = sixteenths([ACCENTS_OFF], 2);
    const late = perfect(plain).map((one) => ({ ...one, atMs: one.atMs + 75 }));
    // All 32 strokes 75 ms late, or 50 ms early with one miss and one extra: 0.3 against 2.2.
    expect(align(plain, late, settings).offsetMs).toBeCloseTo(75, 6);
  });

  it('only offsets within three quarters of a gap are tried', () => {
    const at = (ms: number): Float64Array => Float64Array.from(grid.slots, (slot) => slot.atMs + ms);
    const tried = (ms: number): number[] =>
      offsetCandidates(targetsOf(grid), at(ms), settings).map((o) => Math.round(o) + 0);
    expect(tried(10)).toEqual([10]);
    expect(tried(50)).toEqual([50, -75]);
    expect(tried(-50)).toEqual([-50, 75]);
  });
});

describe('the offset on an irregular grid', () => {
  const swung = gridOf({ ...phraseOf([ACCENT_ON_1, ACCENT_ON_2], 4), swing: 0.66 }, { bpm: 90 }, 500, 4);
  const mixed = gridOf(phraseOf(['Rlrl Rl Rlr Lrlr', 'r-L- rl Llr r-l-'], [4, 2, 3, 4]), { bpm: 90 }, 500, 4);
  const ramp = gridOf(
    phraseOf([ACCENT_ON_1, ACCENT_ON_2], 4),
    {
      ramp: [
        { bar: 0, bpm: 60 },
        { bar: 4, bpm: 132 },
      ],
    },
    500,
    4,
  );

  it.each([
    ['swung', swung],
    ['of mixed subdivisions and rests', mixed],
    ['with a ramp', ramp],
  ])('%s: exactly, to 45 %% of the smallest gap either way', (_, grid) => {
    expect(grid.regular).toBe(false);
    for (const share of [0, 0.2, -0.2, 0.45, -0.45]) {
      const ms = share * grid.smallestGapMs;
      const { offsetMs, misfit } = align(
        grid,
        perfect(grid).map((one) => ({ ...one, atMs: one.atMs + ms })),
        settings,
      );
      expect(offsetMs).toBeCloseTo(ms, 6);
      expect(misfit).toBeNull();
    }
  });

  it('a stroke weighs 1 on the slot, 0.5625 an eighth of the gap off, 0 from a quarter on', () => {
    expect(kernel(0)).toBe(1);
    expect(kernel(0.125)).toBe(0.5625);
    expect(kernel(0.25)).toBe(0);
    expect(kernel(-0.4)).toBe(0);
  });
});

describe('the pairing limit', () => {
  const grid = sixteenths([ACCENTS_OFF], 2);
  const limitOf = (devs: readonly number[]): number =>
    limitUnder(
      targetsOf(grid),
      Float64Array.from(grid.slots, (slot, i) => slot.atMs + devs[i % devs.length]),
      0,
      settings,
    );

  it('is four times 1.4826 × MAD in gaps: 10 ms of 125 give 0.4744', () => {
    expect(limitOf([10, -10])).toBeCloseTo(4 * 1.4826 * 0.08, 9);
  });

  it('is not under 0.4 and not over 0.999', () => {
    expect(limitOf([0])).toBe(0.4);
    expect(limitOf([25, -25])).toBe(0.999);
  });
});

describe('laws of the offset', () => {
  const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 2);
  const deviations = fc.array(fc.integer({ min: -15, max: 15 }), { minLength: 32, maxLength: 32 });

  it('shifting strokes and grid together changes nothing', () => {
    fc.assert(
      fc.property(deviations, fc.integer({ min: -5000, max: 5000 }), (devs, shift) => {
        const strokes = perfect(grid).map((one, i) => ({ ...one, atMs: one.atMs + devs[i] }));
        const moved = {
          ...grid,
          slots: grid.slots.map((slot) => ({ ...slot, atMs: slot.atMs + shift })),
          bars: grid.bars.map((bar) => ({ ...bar, startMs: bar.startMs + shift, endMs: bar.endMs + shift })),
        };
        const here = align(grid, strokes, settings);
        const there = align(
          moved,
          strokes.map((one) => ({ ...one, atMs: one.atMs + shift })),
          settings,
        );
        expect(there.outcomes).toEqual(here.outcomes);
        expect(there.extras).toEqual(here.extras);
        expect(there.offsetMs).toBeCloseTo(here.offsetMs, 6);
      }),
    );
  });

  it('swapping early and late flips the sign of the offset', () => {
    fc.assert(
      fc.property(deviations, (devs) => {
        const offset = (sign: number): number =>
          align(
            grid,
            perfect(grid).map((one, i) => ({ ...one, atMs: one.atMs + sign * devs[i] })),
            settings,
          ).offsetMs;
        expect(offset(-1)).toBeCloseTo(-offset(1), 6);
      }),
    );
  });
});

describe('what the whole gap is chosen by', () => {
  const grid = sixteenths([ACCENT_ON_1], 1);
  const targets = targetsOf(grid);
  const levels = Float64Array.from(grid.slots, ({ kind }) => (kind === 'accent' ? -4 : -20));
  const everyOne = Int32Array.from(grid.slots, (_, slot) => slot);
  const cost = (slotOf: Int32Array, level: Float64Array, offsetMs: number): number =>
    offsetCost(targets, { level }, slotOf, loudestLevel(targets, { count: level.length, level }), offsetMs);

  it('half the offset in gaps: 50 ms of 125 cost 0.2, either way, and none nothing', () => {
    expect(cost(everyOne, levels, 0)).toBe(0);
    expect(cost(everyOne, levels, 50)).toBeCloseTo(0.2, 12);
    expect(cost(everyOne, levels, -50)).toBeCloseTo(0.2, 12);
  });

  it('1 a miss, 1 an extra', () => {
    const late = everyOne.map((slot) => (slot === 0 ? -1 : slot));
    expect(cost(late, levels, 0)).toBe(2);
    const without = <Kind extends Int32Array | Float64Array>(all: Kind): Kind =>
      all.filter((_, i) => i !== 1) as Kind;
    expect(cost(without(everyOne), without(levels), 0)).toBe(1);
  });

  it('1 a stroke among the loudest on a soft slot, 1 an accent that is not', () => {
    const swapped = levels.slice();
    [swapped[0], swapped[1]] = [levels[1], levels[0]];
    expect(cost(everyOne, swapped, 0)).toBe(2);
  });

  it('the loudest are as many as accents are due: here four of sixteen', () => {
    const level = Float64Array.from({ length: 16 }, (_, i) => -i);
    expect(loudestLevel(targets, { count: 16, level })).toBe(-3);
    expect(loudestLevel(targets, { count: 4, level })).toBe(-Infinity);
    expect(loudestLevel(targets, { count: 0, level })).toBe(Infinity);
    const plain = targetsOf(sixteenths([ACCENTS_OFF], 1));
    expect(loudestLevel(plain, { count: 16, level })).toBe(Infinity);
  });
});
