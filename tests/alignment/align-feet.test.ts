import { expect, it } from 'vitest';
import { alignFeet, type FootStrike } from '../../src/alignment/align-feet';
import { gridOf } from '../../src/exercises/grid';
import { ACCENT_ON_1, phraseOf } from './made';

const BOTH_FEET = new Set(['K', 'H'] as const);
/** A bass drum on 1 and 3, a hi-hat foot on 2 and 4, at 120 bpm: 0, 1000 and 500, 1500 ms. */
const { feet } = gridOf({ ...phraseOf([ACCENT_ON_1], 4), feet: 'K--- H---' }, { bpm: 120 }, 0, 1);
const strike = (foot: 'K' | 'H', atMs: number): FootStrike => ({ foot, atMs });

it('pairs each foot with its own slots', () => {
  const strikes = [strike('K', 10), strike('H', 495), strike('K', 1004), strike('H', 1500)];
  const { outcomes, extras } = alignFeet(feet, strikes, 0, 0.5, BOTH_FEET);
  expect(outcomes).toEqual([
    { status: 'matched', stroke: 0, deviationMs: 10 },
    { status: 'matched', stroke: 1, deviationMs: -5 },
    { status: 'matched', stroke: 2, deviationMs: 4 },
    { status: 'matched', stroke: 3, deviationMs: 0 },
  ]);
  expect(extras).toEqual([]);
});

it('takes no stroke of the other foot, and none over half a beat away', () => {
  const { outcomes, extras } = alignFeet(feet, [strike('H', 0), strike('K', 1260)], 0, 0.5, BOTH_FEET);
  expect(outcomes.map(({ status }) => status)).toEqual(['missed', 'missed', 'missed', 'missed']);
  expect(extras).toEqual([0, 1]);
});

it('follows the hands’ offset, which stays in the deviations', () => {
  const { outcomes } = alignFeet(feet, [strike('K', 240)], 200, 0.5, BOTH_FEET);
  expect(outcomes[0]).toEqual({ status: 'matched', stroke: 0, deviationMs: 240 });
});

it('does not measure a foot that has no surface', () => {
  const { outcomes } = alignFeet(feet, [strike('K', 0), strike('K', 1000)], 0, 0.5, new Set(['K'] as const));
  expect(outcomes.map(({ status }) => status)).toEqual(['matched', 'notMeasured', 'matched', 'notMeasured']);
});
