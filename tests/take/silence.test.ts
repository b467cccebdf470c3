import { describe, expect, it } from 'vitest';
import { gridOf } from '../../src/exercises/grid';
import type { Phrase } from '../../src/exercises/types';
import { silentFor } from '../../src/take/silence';

// At 120 bpm a bar of four lasts 2000 ms, a sixteenth 125 ms (arithmetic). Bars begin at 0, 2000, 4000 …
const phrase: Phrase = {
  title: 'One bar',
  beatsPerBar: 4,
  partialsPerBeat: 4,
  cycles: 12,
  bars: [{ variation: 'a', sticking: 'Rlrr Lrll Rlrr Lrll' }],
};
const grid = gridOf(phrase, { bpm: 120 }, 0);

it('two whole bars without a stroke are two bars of silence, not one and a half', () => {
  expect(silentFor(grid, 2, 3900, 7900)).toBe(false);
  expect(silentFor(grid, 2, 3900, 8100)).toBe(true);
});

it('a stroke in a bar makes it no silent one', () => {
  expect(silentFor(grid, 2, 4500, 8100)).toBe(false);
  expect(silentFor(grid, 2, 4500, 10_100)).toBe(true);
});

it('who never begins has been silent from the downbeat on', () => {
  expect(silentFor(grid, 2, null, 3000)).toBe(false);
  expect(silentFor(grid, 2, null, 4100)).toBe(true);
});

it('bars to listen to are no silence', () => {
  const bars = [{ ...phrase.bars[0], role: 'listen' as const }, phrase.bars[0]];
  const called = gridOf({ ...phrase, bars }, { bpm: 120 }, 0);
  // Struck in bar 2 (2000–4000 ms); bar 3 is to listen to, bar 4 to play.
  expect(silentFor(called, 1, 3900, 6100)).toBe(false);
  expect(silentFor(called, 1, 3900, 8100)).toBe(true);
});

it('the last stroke a little early for the next bar is of that bar', () => {
  expect(silentFor(grid, 1, 1960, 4100)).toBe(false);
});

describe('half a sixteenth, 62.5 ms, is the player’s', () => {
  it('at the end: a stroke that late in a bar would still be of it, so the bar is not over before', () => {
    expect(silentFor(grid, 2, 3900, 8062)).toBe(false);
    expect(silentFor(grid, 2, 3900, 8063)).toBe(true);
  });

  it('at the start: a last stroke that early is of the bar it comes before', () => {
    // 1937.5 ms is 62.5 ms before bar 2 (index 1) begins.
    expect(silentFor(grid, 1, 1937, 4100)).toBe(true);
    expect(silentFor(grid, 1, 1938, 4100)).toBe(false);
  });
});

it('silence past the last bar of the grid is none: there was nothing to play', () => {
  expect(silentFor(grid, 2, 21_900, 60_000)).toBe(false);
  expect(silentFor(grid, 2, 19_900, 60_000)).toBe(true);
});
