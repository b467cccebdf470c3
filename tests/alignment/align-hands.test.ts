import { describe, expect, it } from 'vitest';
import { alignHands } from '../../src/alignment/align-hands';
import { align } from '../../src/alignment/align';
import type { AlignStroke } from '../../src/alignment/types';
import type { Grid } from '../../src/exercises/types';
import { settingsOf } from '../../src/settings';
import { ACCENT_ON_1, perfect, sixteenths, stroke } from './made';

const settings = settingsOf('working');
const BOTH = '[RL]lrl [Rl]lrl rlrl Rlrl';

/** Every slot struck on time, a pad a hand. */
const onTwoPads = (grid: Grid): AlignStroke[] =>
  grid.slots.map(({ atMs, kind, hand }) =>
    stroke(atMs, { levelDb: kind === 'accent' ? -4 : -20, hand, surface: hand }),
  );

const statusesOf = (grid: Grid, strokes: readonly AlignStroke[], apart: boolean): string[] =>
  alignHands(grid, strokes, settings, { apart: () => apart }).outcomes.map(({ status }) => status);

describe('unisons (grading design: one stroke each; on one surface one stroke, not measured, never a miss)', () => {
  const grid = sixteenths([BOTH], 4);

  it('have a stroke of each hand, however the two are ordered in time', () => {
    const strokes = onTwoPads(grid)
      .map((one, index) =>
        grid.slots[index].together === 2 && one.hand === 'R' ? { ...one, atMs: one.atMs + 15 } : one,
      )
      .sort((a, b) => a.atMs - b.atMs);
    const { outcomes, extras } = alignHands(grid, strokes, settings, { apart: () => true });
    expect(extras).toEqual([]);
    outcomes.forEach((outcome, index) => {
      const { together, hand } = grid.slots[index];
      expect(outcome).toMatchObject({ status: 'matched', wrongHand: false });
      if (outcome.status === 'matched')
        expect(outcome.deviationMs).toBe(together === 2 && hand === 'R' ? 15 : 0);
    });
  });

  it('miss the hand that is not there', () => {
    const strokes = onTwoPads(grid).filter((_, index) => index !== 1);
    expect(statusesOf(grid, strokes, true).slice(0, 3)).toEqual(['matched', 'missed', 'matched']);
  });

  it('are not measured on one surface, and one of them is missed where there is no stroke', () => {
    const single = grid.slots.flatMap(({ atMs, together, hand }) =>
      together === 2 && hand === 'L' ? [] : [stroke(atMs, { surface: 'pad' })],
    );
    expect(statusesOf(grid, single, false).slice(0, 3)).toEqual(['notMeasured', 'notMeasured', 'matched']);
    expect(statusesOf(grid, single.slice(1), false).slice(0, 3)).toEqual([
      'missed',
      'notMeasured',
      'matched',
    ]);
  });

  it('take a second stroke on one surface for theirs: no extra', () => {
    const strokes = onTwoPads(grid).map((one) => ({ ...one, surface: 'pad', hand: null }));
    const { extras, outcomes } = alignHands(grid, strokes, settings);
    expect(extras).toEqual([]);
    expect(outcomes[0].status).toBe('notMeasured');
  });

  it('leave a stroke over that is too far from them', () => {
    const strokes = [...onTwoPads(grid), stroke(60, { surface: 'R', hand: 'R' })].sort(
      (a, b) => a.atMs - b.atMs,
    );
    expect(alignHands(grid, strokes, settings, { apart: () => true }).extras).toHaveLength(1);
  });

  it('slip with the rest: the slots of a slip are counted, both notes of a unison', () => {
    const long = sixteenths(['[RL]rlr Lrlr lrlr [RL]rlr'], 12);
    const times = [...new Set(long.slots.map(({ atMs }) => atMs))];
    const moved = onTwoPads(long).map((one) => {
      const onset = times.indexOf(one.atMs);
      return onset >= 65 && onset < 97 ? { ...one, atMs: times[onset - 1] } : one;
    });
    const played = moved
      .filter((one) => times.indexOf(one.atMs) !== 64 || moved.indexOf(one) > 0)
      .map((one) => ({ ...one, hand: null }))
      .sort((a, b) => a.atMs - b.atMs);
    const { slips, outcomes } = alignHands(long, played, settings, { apart: () => true });
    expect(slips).toHaveLength(1);
    expect(slips[0].slots).toBe(outcomes.filter(({ status }) => status === 'slipped').length);
    expect(slips[0].lag).toBe(1);
  });
});

it('is plain alignment where nothing is graced and nothing together', () => {
  const grid = sixteenths([ACCENT_ON_1], 4);
  expect(alignHands(grid, perfect(grid), settings)).toEqual(align(grid, perfect(grid), settings));
});

describe('graces', () => {
  const grid = sixteenths(['{l}Rlrl {ll}Rlrl rlrl Rlrl'], 4);
  const main = perfect(grid);
  const graces = grid.slots.flatMap((slot) =>
    slot.graces.map((_, order) => stroke(slot.atMs - 30 * (slot.graces.length - order), { levelDb: -24 })),
  );
  const all = [...main, ...graces].sort((a, b) => a.atMs - b.atMs);

  it('are found before their strokes, both of a drag, and take no slot', () => {
    const { graces: found, extras, outcomes } = alignHands(grid, all, settings);
    expect(found?.map(({ slot, strokes }) => [slot, strokes.length]).slice(0, 2)).toEqual([
      [0, 1],
      [4, 2],
    ]);
    expect(extras).toEqual([]);
    expect(outcomes.every(({ status }) => status === 'matched')).toBe(true);
  });

  it('are not there where nothing was struck 8 to 80 ms ahead', () => {
    expect(alignHands(grid, main, settings).graces).toEqual([]);
  });
});
