import { describe, expect, it } from 'vitest';
import { gridOf } from '../../../src/exercises/grid';
import { phraseNamed } from '../../../src/exercises/phrase';
import { figureFor, figureNow, isOut } from '../../../src/take/live/figures';
import type { LivePass, LiveState } from '../../../src/take/types';
import { measureOrder } from '../../../src/grading/types';
import { settingsOf } from '../../../src/settings';

// Rlrr Lrll twice a bar: accents on the first stroke of each group. R: accent, tap, tap; L the same after it.
const phrase = { ...phraseNamed('Single paradiddle, accent walk'), cycles: 1 };
const grid = gridOf(
  { ...phrase, bars: [{ variation: 'plain', sticking: 'Rlrr Lrll Rlrr Lrll' }] },
  { bpm: 100 },
  0,
);
const settings = settingsOf('working');

/** A pass of every slot, at levels and times of one's own. */
function live(levelDb: (slot: number) => number, deviationMs: (slot: number) => number = () => 0): LiveState {
  const passes = grid.slots.map(({ index }): LivePass[] => [
    {
      cycle: 0,
      status: 'matched',
      levelDb: levelDb(index),
      deviationMs: deviationMs(index),
      wrongHand: false,
    },
  ]);
  return {
    strokes: 16,
    offsetMs: 0,
    lateMs: 0,
    told: 'all',
    passes,
    extras: [],
    contrastDb: null,
    unmapped: 0,
  };
}
const isAccent = (slot: number): boolean => grid.slots[slot].kind === 'accent';
const isRight = (slot: number): boolean => grid.slots[slot].hand === 'R';

// Each number by hand from its definition: medians of the strokes named.
describe('the one number', () => {
  it('contrast is accents less taps: −4 less −20 is 16, of the left hand alone 13', () => {
    const now = live((slot) => (isAccent(slot) ? -4 : isRight(slot) ? -20 : -17));
    const { value, R, L, aim, side } = figureNow('contrast', grid, now, settings);
    expect([value, R, L]).toEqual([14.5, 16, 13]);
    expect([aim, side]).toEqual([12, 'least']);
  });

  it('leak before is of the hand whose tap before its own accent is louder than its others', () => {
    // The right hand’s last stroke of `Lrll` goes before its accent.
    const before = [5, 13];
    const now = live((slot) => (isAccent(slot) ? -4 : before.includes(slot) ? -14 : -20));
    const leak = figureNow('leak before', grid, now, settings);
    expect(leak).toMatchObject({ value: 6, hand: 'R', R: 6, L: 0, aim: 2, side: 'most' });
    expect(isOut(leak, leak.value)).toBe(true);
  });

  it('balance is right less left: taps of −18 and −21 are +3 dB', () => {
    const now = live((slot) => (isAccent(slot) ? -4 : isRight(slot) ? -18 : -21));
    expect(figureNow('balance', grid, now, settings)).toMatchObject({ value: 3, R: -18, L: -21 });
  });

  it('early or late is negative when the hands are early', () => {
    const now = live(
      () => -20,
      (slot) => (isRight(slot) ? -12 : 4),
    );
    expect(figureNow('early or late', grid, now, settings)).toMatchObject({ R: -12, L: 4, value: -4 });
  });

  it('scatter of 0 and 10 ms by turns is 1.4826 times 5, and may be 8 % of a sixteenth at 100 bpm: 12 ms', () => {
    const now = live(
      () => -20,
      (slot) => (slot % 2) * 10,
    );
    const { value, aim } = figureNow('scatter', grid, now, settings);
    expect(value).toBeCloseTo(7.413, 6);
    expect(aim).toBeCloseTo(12, 9);
  });

  it('is no number before there are strokes', () => {
    expect(figureNow('contrast', grid, null, settings).value).toBeNull();
    expect(isOut({ side: 'least', aim: 12 }, null)).toBe(false);
  });

  it('there is one for whatever a report can find weakest', () => {
    expect(measureOrder.map(figureFor)).toHaveLength(measureOrder.length);
    expect(figureFor('leakBefore')).toBe('leak before');
  });
});

describe('the one number is of the last two cycles', () => {
  /** Passes of three cycles, the taps of each at its own level and time. */
  const cycles = (tapsDb: readonly number[], late: readonly number[] = tapsDb.map(() => 0)): LiveState => ({
    ...live(() => 0),
    passes: grid.slots.map(({ index }) =>
      tapsDb.map((db, cycle): LivePass => ({
        cycle,
        status: 'matched',
        levelDb: isAccent(index) ? -4 : db,
        deviationMs: late[cycle],
        wrongHand: false,
      })),
    ),
  });
  const value = (name: Parameters<typeof figureNow>[0], state: LiveState): number | null =>
    figureNow(name, grid, state, settings).value;

  it('both of them, and none before: taps of −10, −18 and −22 are −20', () => {
    const state = cycles([-10, -18, -22], [90, 4, 8]);
    expect(value('soft level', state)).toBe(-20);
    expect(value('contrast', state)).toBe(16);
    expect(value('early or late', state)).toBe(6);
    // Half of the deviations 4, half 8: 1.4826 × 2 ms.
    expect(value('scatter', state)).toBeCloseTo(2.9652, 9);
  });

  it('is what there is, in the first cycle', () => {
    expect(value('soft level', cycles([-18]))).toBe(-18);
  });

  it('strokes on a wrong drum are left out of it', () => {
    const state = cycles([-18, -18]);
    const passes = state.passes.map((of, slot) =>
      of.map((pass) => (slot % 2 === 0 ? pass : { ...pass, levelDb: -2, wrongSurface: true as const })),
    );
    expect(value('soft level', { ...state, passes })).toBe(-18);
  });

  it('scatter wants eight strokes', () => {
    const first = (n: number): LiveState => ({
      ...live(() => -20),
      passes: live(
        () => -20,
        (slot) => (slot % 2) * 10,
      ).passes.map((of, slot) => (slot < n ? of : [])),
    });
    expect(value('scatter', first(7))).toBeNull();
    expect(value('scatter', first(8))).toBeCloseTo(7.413, 6);
  });

  it('leak after is of the taps right after a hand’s own accent', () => {
    // `Rlrr`: the right hand’s own next stroke after slot 0 is slot 2.
    const now = live((slot) => (isAccent(slot) ? -4 : slot === 2 || slot === 10 ? -15 : -20));
    expect(figureNow('leak after', grid, now, settings)).toMatchObject({ value: 5, hand: 'R', R: 5, L: 0 });
  });

  it('is out from its limit on, on its own side', () => {
    expect([11.9, 12].map((one) => isOut({ side: 'least', aim: 12 }, one))).toEqual([true, false]);
    expect([2, 2.1, -9].map((one) => isOut({ side: 'most', aim: 2 }, one))).toEqual([false, true, false]);
    expect([2, 2.1, -2.1].map((one) => isOut({ side: 'within', aim: 2 }, one))).toEqual([false, true, true]);
  });
});
