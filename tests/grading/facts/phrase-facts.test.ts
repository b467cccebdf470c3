import { describe, expect, it } from 'vitest';
import { fact, phraseFacts } from '../../../src/grading/facts/phrase-facts';
import { played } from '../played';

/** Slots of the first cycle that have the fact. Sources: what the words mean to a drummer; no outside source. */
function slotsWith(bit: number, ...stickings: readonly string[]): number[] {
  const bars = stickings.map((sticking, i) => [`bar ${i}`, sticking] as const);
  const partials = stickings[0].replace(/[ |()]/g, '').length;
  const { grid } = played({ bars, cycles: 2, beatsPerBar: 1, partialsPerBeat: partials });
  const { bits } = phraseFacts(grid);
  return [...bits.keys()].filter((i) => (bits[i] & bit) !== 0);
}

describe('facts of the phrase', () => {
  it('in Rlrr Lrll the third stroke follows its own accent, and so does the seventh', () => {
    expect(slotsWith(fact.after, 'Rlrr Lrll')).toEqual([2, 6]);
  });

  it('in Rlrr Lrll the second stroke prepares L, and the sixth prepares R round the cycle', () => {
    expect(slotsWith(fact.before, 'Rlrr Lrll')).toEqual([1, 5]);
  });

  it('a soft stroke on either side of the other hand’s accent is beside it, round the cycle too', () => {
    expect(slotsWith(fact.spill, 'Rlrr Lrll')).toEqual([1, 3, 5, 7]);
  });

  it('rr and ll are the doubles of a paradiddle; their second notes are the fourth and the eighth', () => {
    expect(slotsWith(fact.double, 'Rlrr Lrll')).toEqual([3, 7]);
    expect(slotsWith(fact.second, 'Rlrr Lrll')).toEqual([3, 7]);
  });

  it('an accent and a tap are a double, but not of one kind', () => {
    expect(slotsWith(fact.double, 'rlRr lrLl')).toEqual([3, 7]);
    expect(slotsWith(fact.second, 'rlRr lrLl')).toEqual([]);
  });

  it('a tap and a ghost are a double, but not of one kind', () => {
    expect(slotsWith(fact.double, 'Rlr(r) Lrl(l)')).toEqual([3, 7]);
    expect(slotsWith(fact.second, 'Rlr(r) Lrl(l)')).toEqual([]);
  });

  it('three in a row are no double', () => {
    expect(slotsWith(fact.double, 'rrrl')).toEqual([]);
  });

  it('two across a barline are no double', () => {
    expect(slotsWith(fact.double, 'lrlr', 'rlrl')).toEqual([]);
  });

  it('two with a rest between are no double', () => {
    expect(slotsWith(fact.double, 'r-rl')).toEqual([]);
  });

  it('a pair whose hand ends the bar before is part of a longer run: no double', () => {
    expect(slotsWith(fact.double, 'rrlr')).toEqual([]);
  });

  it('own strokes are found across rests', () => {
    expect(slotsWith(fact.after, 'R--r l---')).toEqual([1]);
  });

  it('accents are never soft strokes of any sort', () => {
    expect(slotsWith(fact.after | fact.before | fact.spill | fact.second, 'RLRR LRLL')).toEqual([]);
  });
});
