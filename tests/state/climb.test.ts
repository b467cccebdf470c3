import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import {
  climbAt,
  climbBegun,
  climbHeld,
  climbNote,
  climbTook,
  factsBefore,
  planOfClimb,
  type Climbing,
} from '../../src/state/climb';
import { plainPlan } from '../../src/state/playing-plan';
import { gradeTake } from '../../src/take/grade-take';
import { gradedRecord } from '../../src/insight/graded-record';
import { modelTake } from '../../src/model/model-player';
import { summaryOf, type TakeSummary } from '../../src/sessions/take-record';
import type { Take } from '../../src/sessions/types';

const PHRASE = { ...phraseNamed('Single paradiddle, accent walk'), cycles: 4 };
const HOLDS_UP_TO = 92;

/** Held up to 92 bpm; over it every bar lacks a stroke. */
function played(bpm: number, seed: number): Take {
  const { take } = modelTake({ phrase: PHRASE, bpm, seed, cycles: 4 });
  const hits = bpm <= HOLDS_UP_TO ? take.hits : take.hits.filter((_, index) => index % 16 !== 6);
  return { ...take, hits };
}

/** Takes one after the other as the climb asks for them, each a minute long on the page's clock. */
function climbed(startBpm: number, most = 30): { readonly climb: Climbing; readonly bpms: number[] } {
  let climb = climbBegun({ startBpm }, PHRASE);
  const bpms: number[] = [];
  for (let atMs = 60_000; climb.step.kind !== 'done' && bpms.length < most; atMs += 60_000) {
    const { bpm } = climb.step;
    bpms.push(bpm);
    const take = played(bpm, bpms.length);
    climb = climbTook(climb, { report: gradeTake(take), take, atMs });
  }
  return { climb, bpms };
}

// grading.md section 7: up about 3 % after two that held, an end after the third failure, the last at a tempo that held.
describe('a climb', () => {
  it('goes up by threes in the hundred, ends at the third failure, and its last take is bare and holds', () => {
    const { climb, bpms } = climbed(86);
    expect(bpms.slice(0, 7)).toEqual([86, 86, 89, 89, 92, 92, 95]);
    expect(climb.step.kind).toBe('done');
    expect(climb.takes.filter(({ went }) => went === 'not held')).toHaveLength(3);
    expect(climb.takes.at(-1)).toMatchObject({ bpm: 92, went: 'held' });
    expect(climb.step.words).toMatch(/The last take was clean at 92: leave it there for today\.$/);
  });

  it('begins the next take by itself after a breath, and nothing while it is held', () => {
    const begun = climbBegun({ startBpm: 86 }, PHRASE);
    expect(begun).toMatchObject({ startsAtMs: null, step: { kind: 'play', bpm: 86 } });
    const take = played(86, 1);
    const after = climbTook(begun, { report: gradeTake(take), take, atMs: 50_000 });
    expect(after).toMatchObject({ startsAtMs: 54_000, secondsLeft: 4 });
    expect(climbAt(after, 52_100)).toMatchObject({ secondsLeft: 2 });
    expect(climbHeld(after)).toMatchObject({ startsAtMs: null, secondsLeft: null });
  });

  it('does not count a take that was cut short, or one of another phrase', () => {
    const begun = climbBegun({ startBpm: 86 }, PHRASE);
    const whole = played(86, 1);
    const short = { ...whole, hits: whole.hits.slice(0, 64) };
    expect(climbTook(begun, { report: gradeTake(short), take: short, atMs: 9 })).toMatchObject({
      takes: [],
      cutShort: true,
    });
    const other = modelTake({ phrase: phraseNamed('Single paradiddle, rotations'), bpm: 86, seed: 1 }).take;
    expect(climbTook(begun, { report: gradeTake(other), take: other, atMs: 9 })).toBe(begun);
  });

  it('within a tenth of the ceiling a rest as long as the take goes before the next', () => {
    const begun = climbBegun({ startBpm: 90, ceilingBpm: 92 }, PHRASE);
    const take = played(90, 1);
    const lastsMs = take.hits[take.hits.length - 1].atMs - take.hits[0].atMs;
    const after = climbTook(begun, { report: gradeTake(take), take, atMs: 100_000 });
    expect(after.step.kind).toBe('rest');
    expect(after.startsAtMs).toBeCloseTo(100_000 + lastsMs, 6);
  });

  it('stays in Play between takes; the last goes without the click after its first bar, and says so', () => {
    const last = { takes: [], step: { kind: 'play', bpm: 92, last: true, words: '' } } as const;
    const climb = { ...climbed(86, 1).climb, ...last };
    const plan = planOfClimb(plainPlan, climb);
    expect(plan).toMatchObject({ then: 'stay', click: { bare: { kind: 'steady', on: 1 } } });
    expect(climbNote(climb)).toBe('Climb, take 1: the last, bare');
    expect(planOfClimb(plainPlan, null)).toBe(plainPlan);
  });
});

describe('what is known before a climb', () => {
  const kept = (bpm: number, day: string, seed: number): TakeSummary => {
    const take = { ...played(bpm, seed), id: `${day} ${seed}`, recordedAt: `${day}T10:00:00.000Z` };
    return { ...summaryOf(take), graded: gradedRecord(take, gradeTake(take)) };
  };

  it('last time’s best is the fastest take that held on the last day before this one, on this rig', () => {
    const { rig } = played(80, 1);
    const takes = [kept(92, '2026-11-20', 1), kept(84, '2026-11-23', 2), kept(96, '2026-11-23', 3)];
    const today = kept(89, '2026-11-25', 4);
    expect(factsBefore(80, PHRASE, rig, [...takes, today], '2026-11-25').bestBpm).toBe(84);
    expect(factsBefore(80, PHRASE, { ...rig, id: 'another' }, takes, '2026-11-25')).toEqual({ startBpm: 80 });
  });
});
