import { describe, expect, it } from 'vitest';
import { align } from '../../src/alignment/align';
import type { Misfit } from '../../src/alignment/types';
import { gridOf } from '../../src/exercises/grid';
import { settingsOf } from '../../src/settings';
import { ACCENT_ON_1, ACCENT_ON_2, perfect, phraseOf, sixteenths, stroke } from './made';

const settings = settingsOf('working');
const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 8, 90);
const GAP_MS = 60_000 / 90 / 4;

/** The take with each stroke at another time. */
const misfitAt = (timeOf: (slotMs: number, index: number) => number): Misfit | null =>
  align(
    grid,
    perfect(grid).map((one, i) => ({ ...one, atMs: timeOf(one.atMs, i) })),
    settings,
  ).misfit;

describe('does not fit the grid', () => {
  it('a take on the grid fits', () => {
    expect(misfitAt((ms) => ms)).toBeNull();
  });

  it('sixteenths swung to two thirds are swung: the second of two comes a third of a gap late', () => {
    expect(misfitAt((ms, i) => ms + (i % 2) * (GAP_MS / 3))).toEqual({ reason: 'swung' });
  });

  it('a light swing of 60 : 40 is a habit, not another grid: 0.2 of a gap', () => {
    expect(misfitAt((ms, i) => ms + (i % 2) * 0.2 * GAP_MS)).toBeNull();
  });

  it('dotted sixteenths (75 : 25) are swung, though their phases cancel', () => {
    expect(misfitAt((ms, i) => ms + (i % 2) * 0.5 * GAP_MS)).toEqual({ reason: 'swung' });
  });

  it('a swung take on a grid that is written so fits', () => {
    const swung = gridOf({ ...phraseOf([ACCENT_ON_1], 4), swing: 2 / 3 }, { bpm: 90 }, 0, 4);
    expect(align(swung, perfect(swung), settings).misfit).toBeNull();
  });

  it.each([84, 87, 93, 97])(
    'a take at %d bpm is named by its tempo, to a tenth of a beat a minute',
    (bpm) => {
      const misfit = misfitAt((ms) => (ms * 90) / bpm);
      expect(misfit?.reason).toBe('tempo');
      expect(misfit?.tempoBpm).toBeCloseTo(bpm, 1);
    },
  );

  it('a tempo 20 % off has no name', () => {
    expect(misfitAt((ms) => (ms * 90) / 72)).toEqual({ reason: 'subdivision' });
  });

  it('triplets on a grid of sixteenths are another subdivision', () => {
    expect(misfitAt((_, i) => (i * GAP_MS * 4) / 3)).toEqual({ reason: 'subdivision' });
  });

  it('a player who stops after half of a grid leaves under 60 % of the slots paired', () => {
    const half = perfect(grid).slice(0, 64);
    expect(align(grid, half, settings).misfit).toEqual({ reason: 'unpaired' });
    expect(align(grid, perfect(grid).slice(0, 77), settings).misfit).toBeNull();
  });

  it('twice as many strokes as slots leave under 60 % of the strokes paired', () => {
    const eighths = gridOf(phraseOf(['RlRl RlRl'], 2), { bpm: 90 }, 0, 8);
    const strokes = Array.from({ length: 128 }, (_, i) =>
      stroke(i * GAP_MS, { levelDb: i % 2 === 0 ? -4 : -20 }),
    );
    expect(align(eighths, strokes, settings).misfit).not.toBeNull();
  });

  it('under 32 strokes only the share of pairs is judged', () => {
    const one = sixteenths([ACCENT_ON_1], 1, 90);
    const swung = perfect(one).map((struck, i) => ({
      ...struck,
      atMs: struck.atMs + (i % 2) * (GAP_MS / 3),
    }));
    expect(align(one, swung, settings).misfit).toBeNull();
  });

  it('a slipped take still fits: its strokes are paired', () => {
    const strokes = grid.slots.map((slot, i) =>
      stroke(slot.atMs, { levelDb: grid.slots[(i + 1) % 128].kind === 'accent' ? -4 : -20 }),
    );
    const played = align(grid, strokes, settings);
    expect(played.slips.length).toBeGreaterThan(0);
    expect(played.misfit).toBeNull();
  });

  // Every second stroke a share p of a gap late: the half bars' resultant is cos(πp), that is 0.4 at p = 0.369 (arithmetic),
  // and all of the take's as much, well over the 0.25 that doesn't fit by itself.
  const apart = (share: number, leaveOut: number): Misfit | null =>
    align(
      grid,
      perfect(grid)
        .map((one, i) => ({ ...one, atMs: one.atMs + (i % 4 < 2 ? 0 : share * GAP_MS) }))
        .filter((_, i) => i % leaveOut !== leaveOut - 1),
      settings,
    ).misfit;

  it('half bars under a resultant of 0.4 don’t fit where under nine tenths are paired: of eight strokes one is left out', () => {
    expect(apart(0.39, 8)).toEqual({ reason: 'subdivision' });
    expect(apart(0.34, 8)?.reason).not.toBe('subdivision');
  });

  it('but where nearly all are paired it is a hand, or a swing: of sixteen strokes one is left out', () => {
    expect(apart(0.39, 16)?.reason).not.toBe('subdivision');
  });
});
