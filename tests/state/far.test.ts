import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  FAR_FRAMES_A_SECOND,
  type FarFrame,
  type FarNews,
  farNext,
  type FarState,
  isStale,
  noFarState,
  staleWords,
} from '../../src/state/far';
import { farFrameOf, farSceneOf } from '../../src/state/selectors/far';
import { firstState } from '../../src/state/state';
import { reduce } from '../../src/state/reducer';

const scene = farSceneOf(firstState);
const frame = (running: boolean): FarFrame => ({
  ...farFrameOf(firstState, 1, 0),
  running,
});
const heard = (atMs: number, from: string, running = true): FarNews => ({
  kind: 'message',
  atMs,
  message: { kind: 'frame', from, frame: frame(running) },
});
const after = (news: readonly FarNews[]): FarState => news.reduce(farNext, noFarState);

describe('the far view', () => {
  it('says in whole seconds how old its picture is, once it is old', () => {
    expect(staleWords(noFarState)).toBe('Nothing heard yet. Open Play in the player’s window.');
    const state = after([heard(1000, 'a'), { kind: 'tick', atMs: 3000 }]);
    expect(isStale(state)).toBe(false);
    expect(staleWords(farNext(state, { kind: 'tick', atMs: 5200 }))).toBe('Last heard 4 s ago.');
  });

  it('keeps to the window it hears, though another speaks', () => {
    const state = after([heard(0, 'a'), heard(100, 'b')]);
    expect(state.from).toBe('a');
    expect(state.receivedMs).toBe(0);
  });

  it('goes to another window that plays where its own does not, or has fallen silent', () => {
    expect(after([heard(0, 'a', false), heard(100, 'b')]).from).toBe('b');
    expect(after([heard(0, 'a'), heard(3000, 'b', false)]).from).toBe('b');
  });

  it('follows a window that was reloaded by itself', () => {
    const state = after([heard(0, 'a'), { kind: 'tick', atMs: 4000 }, heard(4100, 'a anew')]);
    expect(state.from).toBe('a anew');
    expect(staleWords(state)).toBe('');
  });

  it('is given the very same scene while nothing of it changes, and a new one with a new phrase', () => {
    expect(farSceneOf({ ...firstState, screen: 'play' })).toBe(scene);
    const typed = reduce(firstState, { kind: 'type phrase', text: 'Rlrr Lrll Rlrr Lrll' });
    expect(farSceneOf(typed)).not.toBe(scene);
  });

  it('is sent as many frames a second as DEVELOPERS.md says', () => {
    const text = readFileSync('DEVELOPERS.md', 'utf8');
    const said = /The far view is a window of its own.*?at most (\d+) times a second/.exec(text);
    expect(said?.[1]).toBe(String(FAR_FRAMES_A_SECOND));
  });

  it('a frame is small: under 8 kB in a bar of sixteen strokes that was played for long', () => {
    const passes = scene.slots.map(() =>
      Array.from({ length: 8 }, (_, cycle) => ({
        cycle,
        status: 'matched' as const,
        levelDb: -17.123456789012,
        deviationMs: -3.123456789012,
        wrongHand: false,
      })),
    );
    const live = {
      strokes: 512,
      offsetMs: 0,
      lateMs: 0,
      told: 'all' as const,
      passes,
      extras: [],
      contrastDb: null,
      unmapped: 0,
    };
    const sent = farFrameOf({ ...firstState, live }, 1, 0);
    expect(sent.passes).toHaveLength(16);
    expect(JSON.stringify(sent).length).toBeLessThan(8192);
  });
});

describe('what is shown while playing', () => {
  it('a teacher’s choice replaces the player’s, and numbers can be off', () => {
    const chosen = reduce(firstState, { kind: 'figure', figure: 'balance', by: 'teacher' });
    expect(chosen.figureChoice).toBe('balance');
    expect(reduce(chosen, { kind: 'view', change: { numbers: false } }).view).toEqual({
      timing: true,
      mirrored: false,
      numbers: false,
    });
  });
});
