import { describe, expect, it } from 'vitest';
import type { SlotOutcome } from '../../src/alignment/types';
import { unisonReachMs, unisonOutcomes } from '../../src/alignment/unisons';
import { gridOf } from '../../src/exercises/grid';
import type { Hand } from '../../src/stroke';
import { settingsOf } from '../../src/settings';
import { phraseOf } from './made';

const grid = gridOf(phraseOf(['[RL]lrl Rlrl Rlrl Rlrl'], 4), { bpm: 120 }, 0, 1);
const [first, second] = grid.slots;
const struck = (atMs: number, surface: string, hand: Hand | null = null) => ({ atMs, surface, hand });
const matched = (stroke: number): SlotOutcome => ({
  status: 'matched',
  stroke,
  deviationMs: 0,
  wrongHand: false,
});
const of = (
  onset: SlotOutcome,
  other: number,
  strokes: readonly ReturnType<typeof struck>[],
  apart: boolean,
) =>
  unisonOutcomes(onset, [first, second], other, strokes, apart).map((outcome) =>
    outcome.status === 'matched'
      ? `${outcome.stroke}${outcome.wrongHand ? ' wrong hand' : ''}`
      : outcome.status,
  );

describe('how far apart the strokes of a unison may come (common practice, no source)', () => {
  it('50 ms, at fast tempos 0.4 of the gap: a sixteenth at 120 bpm lasts 125 ms, at 180 bpm 83.3', () => {
    const reach = (bpm: number): number =>
      unisonReachMs(gridOf(phraseOf(['Rlrl Rlrl Rlrl Rlrl'], 4), { bpm }, 0, 1), settingsOf('working'));
    expect(reach(120)).toBe(50);
    expect(reach(180)).toBeCloseTo(100 / 3, 9);
    expect(reach(60)).toBe(50);
  });
});

describe('the two notes of a unison', () => {
  it('the grid has the right hand’s first', () => {
    expect([first.hand, second.hand, first.atMs, second.atMs]).toEqual(['R', 'L', 0, 0]);
  });

  it('nothing struck: both missed where two surfaces are due, else one stroke was due and one is missed', () => {
    expect(of({ status: 'missed' }, -1, [], true)).toEqual(['missed', 'missed']);
    expect(of({ status: 'missed' }, -1, [], false)).toEqual(['missed', 'notMeasured']);
    expect(of({ status: 'tooSoft' }, -1, [], false)).toEqual(['tooSoft', 'notMeasured']);
  });

  it('one stroke on one surface: nobody can tell the hands', () => {
    expect(of(matched(0), -1, [struck(3, 'pad')], false)).toEqual(['notMeasured', 'notMeasured']);
    expect(of(matched(0), 1, [struck(3, 'pad'), struck(9, 'pad')], false)).toEqual([
      'notMeasured',
      'notMeasured',
    ]);
  });

  it('two surfaces, hands unknown: the earlier is the right hand’s', () => {
    const strokes = [struck(3, 'a'), struck(-4, 'b')];
    expect(of(matched(0), 1, strokes, true)).toEqual(['1', '0']);
    expect(of(matched(1), 0, strokes, true)).toEqual(['1', '0']);
  });

  it('a known hand is its hand’s, whichever comes first', () => {
    expect(of(matched(0), 1, [struck(-4, 'a', 'L'), struck(3, 'b')], true)).toEqual(['1', '0']);
    expect(of(matched(0), 1, [struck(-4, 'a'), struck(3, 'b', 'R')], true)).toEqual(['1', '0']);
    expect(of(matched(0), 1, [struck(-4, 'a', 'R'), struck(3, 'b', 'L')], true)).toEqual(['0', '1']);
  });

  it('two surfaces due and one struck: the other is missed', () => {
    expect(of(matched(0), -1, [struck(0, 'a', 'L')], true)).toEqual(['missed', '0']);
    expect(of(matched(0), -1, [struck(0, 'a', 'R')], true)).toEqual(['0', 'missed']);
    expect(of(matched(0), -1, [struck(0, 'a')], true)).toEqual(['0', 'missed']);
  });

  it('in a slip the second has no stroke of its own', () => {
    const slipped: SlotOutcome = { status: 'slipped', stroke: 0, deviationMs: 1 };
    expect(of(slipped, -1, [struck(1, 'a')], true)).toEqual(['slipped', 'slipped']);
  });
});
