import { expect, it } from 'vitest';
import { countIn } from '../../src/click/schedule';
import { gridOf } from '../../src/exercises/grid';
import type { Phrase } from '../../src/exercises/types';
import { barsBegun, positionAt } from '../../src/take/position';

// At 120 bpm a beat lasts 500 ms, a bar of four 2000 ms (arithmetic); count-in of one bar (common practice).
const phrase: Phrase = {
  title: 'Two bars',
  beatsPerBar: 4,
  partialsPerBeat: 4,
  cycles: 2,
  bars: [
    { variation: 'a', sticking: 'Rlrr Lrll Rlrr Lrll' },
    { variation: 'b', sticking: 'rLrr lRll rLrr lRll' },
  ],
};
const grid = gridOf(phrase, { bpm: 120 }, 5000);

it('is before the count-in until a bar ahead of the downbeat', () => {
  expect(positionAt(grid, 2400)).toEqual({ phase: 'before', untilMs: 600 });
});

it('counts in four beats', () => {
  expect(positionAt(grid, 3000)).toEqual({ phase: 'count-in', beat: 0, beats: 4 });
  expect(positionAt(grid, 4999)).toEqual({ phase: 'count-in', beat: 3, beats: 4 });
});

it('is on beat 0 of bar 0 at the downbeat', () => {
  expect(positionAt(grid, 5000)).toEqual({ phase: 'playing', bar: 0, barInCycle: 0, cycle: 0, beat: 0 });
});

it('is on the last beat of bar 2 of cycle 2 just before the end, and after it then', () => {
  expect(positionAt(grid, 12_999)).toEqual({ phase: 'playing', bar: 3, barInCycle: 1, cycle: 1, beat: 3 });
  expect(positionAt(grid, 13_000)).toEqual({ phase: 'after' });
});

it('a bar said first comes after the count-in', () => {
  const count = countIn(grid, { countInBars: 1, sayFirst: true });
  expect(positionAt(grid, 1000, count)).toEqual({ phase: 'count-in', beat: 0, beats: 4 });
  expect(positionAt(grid, 3000, count)).toEqual({ phase: 'say', beat: 0, beats: 4 });
  expect(positionAt(grid, 4999, count)).toEqual({ phase: 'say', beat: 3, beats: 4 });
});

it('counts the bars that have begun', () => {
  expect([4999, 5000, 6999, 7000, 20_000].map((atMs) => barsBegun(grid, atMs))).toEqual([0, 1, 1, 2, 4]);
});
