import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { laidMs, plainReading, type Reading } from '../../src/alignment/follow-laid';
import { readableOf, readSoFar } from '../../src/alignment/follow-reading';
import { handSign } from '../../src/alignment/targets';
import type { AlignStroke } from '../../src/alignment/types';
import type { Grid } from '../../src/exercises/types';
import { settingsOf } from '../../src/settings';
import { ACCENT_ON_1, ACCENT_ON_2, perfect, sixteenths, stroke } from './made';

// Sixteenths at 120 bpm: a gap is 125 ms, a bar 2000 ms (arithmetic). Limits are those of src/settings.ts.
const settings = settingsOf('working');
const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 12);
const singles = sixteenths(['rlrl rlrl rlrl rlrl'], 12);

function read(of: Grid, strokes: readonly AlignStroke[], bars = 1, isOwnTime = false): Reading {
  const soFar = {
    at: Float64Array.from(strokes, ({ atMs }) => atMs),
    level: Float64Array.from(strokes, ({ levelDb }) => levelDb),
    hand: Int8Array.from(strokes, ({ hand }) => handSign(hand)),
    bars,
  };
  return readSoFar(readableOf(of, isOwnTime), soFar, plainReading, settings);
}

const later = (of: Grid, ms: number | ((slot: number, atMs: number) => number)): AlignStroke[] =>
  perfect(of).map((one, slot) => ({
    ...one,
    atMs: one.atMs + (typeof ms === 'number' ? ms : ms(slot, one.atMs)),
  }));

describe('a take that begins late', () => {
  it('is told by the seventeenth stroke of one partial late: by then four strokes stand where the other kind is due', () => {
    // Each speaks with ±1.5 for one place against the other, so 3 a stroke; 4 × 3 less ½ and 0.02 is over 9, 3 × 3 isn't.
    const few = sixteenths(['Rlrr lrll Rlrr lrll', 'rLrr lrll rLrr lrll'], 12);
    const late = later(few, 125);
    expect(read(few, late.slice(0, 16)).places).toBe(0);
    expect(read(few, late.slice(0, 17))).toMatchObject({ places: 1, lateMs: 125 });
  });

  it('a beat late: four partials, 500 ms', () => {
    expect(read(grid, later(grid, 500).slice(0, 40), 3)).toMatchObject({ places: 4, lateMs: 500 });
  });

  it('by known hands alone where all is as loud', () => {
    const level = sixteenths(['rlrr lrll rlrr lrll'], 12);
    const led = level.slots.map(({ atMs, hand }) => stroke(atMs + 250, { hand }));
    expect(read(level, led.slice(0, 20)).places).toBe(2);
    expect(
      read(
        level,
        led.slice(0, 20).map((one) => ({ ...one, hand: null })),
      ).places,
    ).toBe(0);
  });

  it('within three quarters of a gap it is left to the running offset', () => {
    expect(read(grid, later(grid, 0.74 * 125).slice(0, 24)).lateMs).toBe(0);
    expect(read(grid, later(grid, 0.76 * 125).slice(0, 24)).lateMs).toBe(125);
  });

  it('is looked for until four bars are over, and what was found then stays', () => {
    const late = later(grid, 500).slice(0, 60);
    expect(read(grid, late, 4).places).toBe(4);
    expect(read(grid, late, 5).places).toBe(0);
    const before = read(grid, late, 4);
    const soFar = {
      at: Float64Array.from(late, ({ atMs }) => atMs),
      level: Float64Array.from(late, ({ levelDb }) => levelDb),
      hand: new Int8Array(late.length),
      bars: 5,
    };
    expect(readSoFar(readableOf(grid, false), soFar, before, settings).places).toBe(4);
  });

  it('where nobody can tell by the accents it begins with the phrase: a bar late, no stroke early', () => {
    // The first bar, accents on the beat, over the second, a partial after it, looks like the second a partial early.
    expect(read(grid, later(grid, 2000).slice(0, 8), 2).places).toBe(16);
  });

  it('who comes in in bar 1, in place, is not late', () => {
    expect(read(grid, perfect(grid).slice(8, 40), 2).places).toBe(0);
  });

  it('is no slip: what begins in its place and goes on one ahead stays as it is', () => {
    const slipped = perfect(grid)
      .filter((_, slot) => slot !== 16)
      .map((one, i) => (i < 16 ? one : { ...one, atMs: grid.slots[i].atMs }));
    expect(read(grid, slipped.slice(0, 48), 3).places).toBe(0);
  });

  it('nothing is said of fewer than eight strokes, nor in free time', () => {
    const level = sixteenths(['rlrr lrll rlrr lrll'], 12);
    const led = level.slots.map(({ atMs, hand }) => stroke(atMs + 250, { hand }));
    expect(read(level, led.slice(0, 7)).places).toBe(0);
    expect(read(level, led.slice(0, 8)).places).toBe(2);
    expect(read(level, led.slice(0, 20), 1, true).places).toBe(0);
  });
});

describe('a tempo of one’s own', () => {
  // Half bars of eight: from the middle of the first to that of the last of eight bars it is 15 000 ms.
  const eightBars = (movedMs: number): AlignStroke[] =>
    later(grid, (_, atMs) => (movedMs * atMs) / 15_000).slice(0, 128);

  it('is a line from 25 ms on over all that was played', () => {
    expect(read(grid, eightBars(24.5), 8).slope).toBe(0);
    expect(read(grid, eightBars(25.5), 8).slope).toBeCloseTo(25.5 / 15_000, 5);
    expect(read(grid, eightBars(-25.5), 8).slope).toBeCloseTo(-25.5 / 15_000, 5);
  });

  it('is none where it moved once: the offset follows that', () => {
    expect(read(grid, later(grid, (slot) => (slot < 64 ? 0 : 40)).slice(0, 128), 8).slope).toBe(0);
  });

  it('is not looked for in free time', () => {
    expect(read(grid, eightBars(60), 8, true).slope).toBe(0);
  });
});

describe('swing', () => {
  const swung = (of: Grid, ms: number): AlignStroke[] => later(of, (slot) => (slot % 2) * ms).slice(0, 64);

  it('is told from 8 ms on, the larger of that and 5 % of 125 ms', () => {
    expect(read(grid, swung(grid, 7.9), 4).swingMs).toBe(0);
    expect(read(grid, swung(grid, 8.1), 4).swingMs).toBeCloseTo(8.1, 6);
  });

  it('is told in free time too', () => {
    expect(read(grid, swung(grid, 30), 4, true).swingMs).toBeCloseTo(30, 6);
  });

  it('is no late hand', () => {
    const left = later(grid, (slot) => (grid.slots[slot].hand === 'L' ? 25 : 0)).slice(0, 64);
    expect(read(grid, left, 4).swingMs).toBeCloseTo(0, 6);
  });

  it('where hands alternate with the beats neither is said of the hands, over 16 ms', () => {
    expect(read(singles, swung(singles, 15.9), 4)).toMatchObject({ swingMs: 0, told: 'all' });
    expect(read(singles, swung(singles, 16.1), 4)).toMatchObject({ swingMs: 0, told: 'not by hand' });
  });

  it('in double strokes a late second note is no swing, and each hand is told', () => {
    const doubles = sixteenths(['rrll rrll rrll rrll'], 12);
    expect(read(doubles, swung(doubles, 30), 4)).toMatchObject({ swingMs: 0, told: 'all' });
  });
});

describe('strokes that lie anywhere in their partials', () => {
  // Triplets where sixteenths are due: a third of a gap apart from each other's place.
  const triplets = Array.from({ length: 40 }, (_, i) => stroke((i * 125 * 4) / 3));

  it('say nothing of early and late, from 32 strokes on', () => {
    expect(read(grid, triplets.slice(0, 31), 2).told).toBe('all');
    expect(read(grid, triplets.slice(0, 32), 2).told).toBe('nothing');
  });

  it('from a mean resultant under 0.25 on: two phases, an angle apart', () => {
    // Of two phases a share p of the gap apart the mean resultant is cos(πp): 0.25 at p = 0.4196 (arithmetic).
    const apart = (share: number): AlignStroke[] =>
      later(grid, (slot) => (slot % 2) * share * 125).slice(0, 64);
    expect(read(grid, apart(0.41), 4).told).toBe('all');
    expect(read(grid, apart(0.43), 4).told).toBe('nothing');
  });
});

describe('times as they are laid', () => {
  const anyReading = fc.record({
    places: fc.integer({ min: -32, max: 32 }),
    lateMs: fc.integer({ min: -4000, max: 4000 }),
    slope: fc.double({ min: -0.06, max: 0.06, noNaN: true }),
    fromMs: fc.integer({ min: 0, max: 1000 }),
    swingMs: fc.constant(0),
    told: fc.constant('all' as const),
  });

  it('keep their order, and the ends of time', () => {
    fc.assert(
      fc.property(anyReading, fc.integer(), fc.integer({ min: 1 }), (reading, atMs, moreMs) => {
        expect(laidMs(reading, atMs)).toBeLessThan(laidMs(reading, atMs + moreMs));
        expect(laidMs(reading, Infinity)).toBe(Infinity);
        expect(laidMs(reading, -Infinity)).toBe(-Infinity);
      }),
    );
  });

  it('are the click’s where it was played as it was due', () => {
    expect(laidMs(plainReading, 1234.567)).toBe(1234.567);
  });

  it('a player 1 % faster: after 990 ms a second of the phrase is over', () => {
    expect(laidMs({ ...plainReading, slope: -0.01 }, 990)).toBeCloseTo(1000, 9);
  });
});
