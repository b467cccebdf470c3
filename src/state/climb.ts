import { isCleanShare } from '../grading/clean-share';
import type { Report } from '../grading/types';
import { phraseKeyOf, rigIdOf, type TakeSummary } from '../sessions/take-record';
import type { Rig, Take } from '../sessions/types';
import type { Phrase } from '../exercises/types';
import type { Bpm, Ms } from '../units';
import { nextStep, takeHeld, type ClimbFacts, type ClimbStep, type ClimbTake } from '../insight/climb';
import { progressNow } from '../insight/history/ceilings';
import type { PlayingPlan } from './playing-plan';

/** A take of a climb with what its picture shows. */
interface ClimbedTake extends ClimbTake {
  readonly bars: number;
  readonly held: number;
}

/** A climb that is on: its takes, and what comes next. Times on the page's clock. */
export interface Climbing {
  readonly phraseKey: string;
  readonly facts: Omit<ClimbFacts, 'nowMs'>;
  readonly takes: readonly ClimbedTake[];
  readonly step: ClimbStep;
  /** When the next take begins by itself; null where the player begins it, and after the last. */
  readonly startsAtMs: Ms | null;
  /** Seconds until then, whole, for the eye; null where nothing is awaited. */
  readonly secondsLeft: number | null;
  /** True where the last take was cut short and does not count. */
  readonly cutShort: boolean;
}

/** A take of a climb that has ended, with its report. */
interface ClimbTook {
  readonly report: Report;
  readonly take: Pick<Take, 'phrase' | 'tempo' | 'hits'>;
  readonly atMs: Ms;
}

/** Time to read what comes next and to lift the sticks. */
const BREATH_MS: Ms = 4000;
/** A take of fewer of its bars was cut short. */
const WHOLE_SHARE = 0.75;

export function climbBegun(facts: Omit<ClimbFacts, 'nowMs'>, phrase: Phrase): Climbing {
  const step = nextStep([], { ...facts, nowMs: 0 });
  return { phraseKey: phraseKeyOf(phrase), facts, takes: [], step, ...waiting, cutShort: false };
}

/** The climb after some time: the seconds that are left until the next take begins by itself. */
export function climbAt(climb: Climbing, atMs: Ms): Climbing {
  const { startsAtMs } = climb;
  if (startsAtMs === null) return climb;
  return { ...climb, secondsLeft: Math.max(0, Math.ceil((startsAtMs - atMs) / 1000)) };
}

/** Nothing begins by itself. */
export function climbHeld(climb: Climbing): Climbing {
  return climb.startsAtMs === null ? climb : { ...climb, ...waiting };
}

const waiting = { startsAtMs: null, secondsLeft: null } as const;

/** The climb after a take; one of another phrase doesn't count. */
export function climbTook(climb: Climbing, { report, take, atMs }: ClimbTook): Climbing {
  if (phraseKeyOf(take.phrase) !== climb.phraseKey) return climb;
  const played = report.bars.filter(({ role }) => role === undefined);
  const due =
    take.phrase.cycles * take.phrase.bars.filter(({ role }) => role === undefined || role === 'play').length;
  if (report.fits && played.length < WHOLE_SHARE * due) return { ...climb, ...waiting, cutShort: true };
  const bpm = 'bpm' in take.tempo ? take.tempo.bpm : climb.facts.startBpm;
  const one: ClimbedTake = {
    bpm,
    went: takeHeld(report),
    endedAtMs: atMs,
    lengthMs: lengthOf(take.hits),
    bars: played.length,
    held: played.filter(({ clean }) => clean).length,
  };
  const takes = [...climb.takes, one];
  const step = nextStep(takes, { ...climb.facts, nowMs: atMs });
  if (step.kind === 'done') return { ...climb, takes, step, ...waiting, cutShort: false };
  const startsAtMs = Math.max(atMs + BREATH_MS, step.kind === 'rest' ? step.untilMs : 0);
  return {
    ...climb,
    takes,
    step,
    startsAtMs,
    secondsLeft: Math.ceil((startsAtMs - atMs) / 1000),
    cutShort: false,
  };
}

function lengthOf(hits: Take['hits']): Ms {
  const [first, last] = [hits.at(0), hits.at(-1)];
  return first === undefined || last === undefined ? 0 : last.atMs - first.atMs;
}

/** What is known of a phrase on a rig before a climb: its ceiling, and the fastest take that held when it was last played. */
export function factsBefore(
  startBpm: Bpm,
  phrase: Phrase,
  rig: Rig | null,
  kept: readonly TakeSummary[],
  today: string,
): Omit<ClimbFacts, 'nowMs'> {
  if (rig === null) return { startBpm };
  const [phraseKey, rigId] = [phraseKeyOf(phrase), rigIdOf(rig)];
  const own = kept.filter((one) => one.phraseKey === phraseKey && one.rigId === rigId && one.graded !== null);
  const { ceiling } = progressNow(own);
  const days = own.map(({ recordedAt }) => recordedAt.slice(0, 10)).filter((day) => day < today);
  const lastDay = days.sort().at(-1);
  const best = own
    .filter(({ recordedAt }) => recordedAt.slice(0, 10) === lastDay)
    .filter(({ graded }) => isHeld(graded?.bars ?? []))
    .map(({ bpm }) => bpm);
  return {
    startBpm,
    ...(ceiling.kind === 'at' ? { ceilingBpm: ceiling.clean.value } : {}),
    ...(best.length > 0 ? { bestBpm: Math.max(...best) } : {}),
  };
}

function isHeld(rows: readonly { readonly bars: number; readonly held: number }[]): boolean {
  const bars = rows.reduce((sum, row) => sum + row.bars, 0);
  const clean = rows.reduce((sum, row) => sum + row.held, 0);
  return isCleanShare(clean, bars);
}

/** How takes of a climb are played: one after the other, and the last without the click after its first bar. */
export function planOfClimb(plan: PlayingPlan, climb: Climbing | null): PlayingPlan {
  if (climb === null || climb.step.kind === 'done') return plan;
  const click = climb.step.last ? { ...plan.click, bare: BARE_AFTER_ONE } : plan.click;
  return { ...plan, click, then: 'stay', length: { kind: 'cycles' } };
}

const BARE_AFTER_ONE = { kind: 'steady', on: 1, off: 64 } as const;

/** What is written in a climb's take. @example climbNote({ takes: [], step: { kind: 'play', bpm: 84, last: true, words: '' } }) // => 'Climb, take 1: the last, bare' */
export function climbNote({ takes, step }: Pick<Climbing, 'takes' | 'step'>): string {
  return `Climb, take ${takes.length + 1}${step.kind !== 'done' && step.last ? ': the last, bare' : ''}`;
}
