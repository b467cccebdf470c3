import { expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { reduce } from '../../src/state/reducer';
import { firstState, type State } from '../../src/state/state';
import { withoutFile, wouldLose, type UnkeptTake } from '../../src/state/unkept';

const { take } = modelTake({ phrase: phraseNamed('Single paradiddle, accent walk'), bpm: 84, seed: 5 });
const held: UnkeptTake = { take, sentence: 'All hold.', why: 'no room', from: 'played', downloaded: false };
const holding = (unkept: UnkeptTake): State => reduce(firstState, { kind: 'take unkept', unkept });

it('a take that is not kept is told of on every screen, until its player has it as a file', () => {
  let state = holding(held);
  for (const screen of ['rig', 'today', 'review'] as const) state = reduce(state, { kind: 'go', screen });
  expect(withoutFile(state.unkept)).toEqual([held]);
  expect(wouldLose(state)).toBe(true);
  state = reduce(state, { kind: 'download take', id: take.id });
  expect(withoutFile(state.unkept)).toEqual([]);
  expect(wouldLose(state)).toBe(false);
  // It is still tried to be kept.
  expect(state.unkept).toHaveLength(1);
});

it('held once more it stands once, as it is now', () => {
  const noted = { ...held, take: { ...take, notes: 'left heavy' } };
  expect(reduce(holding(held), { kind: 'take unkept', unkept: noted }).unkept).toEqual([noted]);
});

it('a running take that is not being kept would be lost, and is over with the take', () => {
  const grid = { slots: [], feet: [], bars: [], barsPerCycle: 1, smallestGapMs: 1 } as never;
  let state = reduce(firstState, { kind: 'started', running: { grid, takeId: 'a', bare: [] } });
  state = reduce(state, { kind: 'recording fails', why: 'no room' });
  expect(wouldLose(state)).toBe(true);
  expect(wouldLose(reduce(state, { kind: 'recording fails', why: '' }))).toBe(false);
  expect(wouldLose(reduce(state, { kind: 'ended', strokes: true }))).toBe(false);
  // News of a take that has ended comes too late.
  expect(reduce(firstState, { kind: 'recording fails', why: 'no room' }).recordingFails).toBe('');
});
