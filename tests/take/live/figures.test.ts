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
  return { strokes: 16, offsetMs: 0, passes, extras: [], contrastDb: null, unmapped: 0 };
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
