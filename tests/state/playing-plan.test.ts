import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { changedPlan, cyclesOf, plainPlan, planFrom } from '../../src/state/playing-plan';
import { firstState, type State } from '../../src/state/state';
import { planOf } from '../../src/state/selectors/run';
import { reduce } from '../../src/state/reducer';
import { readTake, writeTake } from '../../src/sessions/take';
import { modelTake } from '../../src/model/model-player';

// A bar of four at 96 bpm lasts 2.5 s (arithmetic), the walk's cycle of four bars 10 s.
const walk = phraseNamed('Single paradiddle, accent walk');

describe('how long a take is', () => {
  it('is the phrase’s own cycles unless something else is said', () => {
    expect(cyclesOf({ kind: 'cycles' }, walk, { bpm: 96 })).toBe(walk.cycles);
  });

  it('two minutes of a cycle of 10 s are 12 cycles', () => {
    expect(cyclesOf({ kind: 'minutes', minutes: 2 }, walk, { bpm: 96 })).toBe(12);
  });

  it('minutes are filled: at 84 bpm one minute takes 6 cycles of 11.4 s', () => {
    expect(cyclesOf({ kind: 'minutes', minutes: 1 }, walk, { bpm: 84 })).toBe(6);
  });

  it('without an end it is an hour', () => {
    expect(cyclesOf({ kind: 'open' }, walk, { bpm: 96 })).toBe(360);
  });
});

describe('a plan', () => {
  it('refuses a count-in of nine bars and keeps the one it had', () => {
    const state = reduce(firstState, {
      kind: 'plan',
      change: { lead: { countInBars: 9, sayFirst: false } },
    });
    expect(state.problem).toBe('Count-in must be a whole number of bars from 1 to 4, got 9');
    expect(state.plan).toBe(firstState.plan);
  });

  it('kept in the browser it comes back; nonsense is the plain one', () => {
    const plan = changedPlan(plainPlan, { length: { kind: 'open' }, silenceBars: null, then: 'stay' });
    expect(planFrom(JSON.parse(JSON.stringify(plan)))).toEqual(plan);
    expect(planFrom({ silenceBars: 'many' })).toEqual(plainPlan);
    expect(planFrom({ click: 7 })).toEqual(plainPlan);
    expect(planFrom(null)).toEqual(plainPlan);
  });
});

describe('the click in a take', () => {
  const { take } = modelTake({ phrase: walk, bpm: 96, seed: 2, cycles: 1 });
  const thinned = reduce(firstState, {
    kind: 'click plan',
    change: { bare: { kind: 'thinning', on: 2, most: 4 } },
  });
  const stamp = { id: 'x', recordedAt: '2026-03-02T17:05:11.000Z' };

  it('a plain one is not written down, one with bare bars is "bare" and says which', () => {
    expect(planOf(firstState, take.rig, stamp)).toMatchObject({ click: 'on' });
    expect(planOf(firstState, take.rig, stamp).clicks).toBeUndefined();
    expect(planOf(thinned, take.rig, stamp).click).toBe('bare');
  });

  it('survives a file', () => {
    const written = { ...planOf(thinned, take.rig, stamp), downbeatMs: take.downbeatMs, hits: take.hits };
    expect(readTake(writeTake(written))).toEqual(written);
  });

  it('a bad one in a file is refused with its place', () => {
    const bad = JSON.parse(writeTake(take)) as Record<string, unknown>;
    bad['clicks'] = { ...thinned.plan.click, partials: [99] };
    expect(() => readTake(JSON.stringify(bad))).toThrow(/clicks\.partials\[0\]/);
  });

  it('the day’s first take is cold, unless a warm-up went before it', () => {
    expect(planOf(firstState, take.rig, { ...stamp, cold: true }).cold).toBe(true);
    expect(planOf(firstState, take.rig, { ...stamp, cold: false })).not.toHaveProperty('cold');
    const warm = { ...firstState, library: { ...firstState.library, warmedUp: true } };
    expect(planOf(warm, take.rig, { ...stamp, cold: true }).cold).toBe(false);
  });
});

describe('tapping', () => {
  it('by key: taps 625 ms apart make the tempo 96 bpm', () => {
    const state = [0, 625, 1250].reduce((now, atMs) => reduce(now, { kind: 'tap', atMs }), firstState);
    expect(state.bpm).toBe(96);
  });

  it('on the pad, only while it is asked for, and then strikes make no rig', () => {
    const hit = (atMs: number) =>
      ({
        kind: 'struck',
        newId: 'one',
        hit: { atMs, port: 'Pad', channel: 10, note: 38, velocity: 90 },
      }) as const;
    const ready = { ...firstState, input: 'Pad', screen: 'play' as const };
    const asked = [0, 500, 1000].reduce<State>(
      (now, atMs) => reduce(now, hit(atMs)),
      reduce(ready, { kind: 'tap on pad', on: true }),
    );
    expect([asked.bpm, asked.rig]).toEqual([120, null]);
    const notAsked = [0, 500].reduce<State>((now, atMs) => reduce(now, hit(atMs)), ready);
    expect(notAsked.bpm).toBe(firstState.bpm);
  });
});
