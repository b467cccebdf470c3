import { filter, share, type Observable } from 'rxjs';
import { countIn, plainLead, type CountIn } from '../click/schedule';
import type { Lead } from '../click/types';
import { InputError } from '../errors';
import { gridOf } from '../exercises/grid';
import type { Grid } from '../exercises/types';
import type { TakeEvent } from '../sessions/take-events';
import type { Take } from '../sessions/types';
import { settingsOf } from '../settings';
import type { RawHit } from '../stroke';
import type { Ms } from '../units';
import { gridMs, steadyBeatMs } from './free-run';
import { live } from './live/live';
import { meanBpm, ownTimeOf, whyNotFree } from './own-time';
import { record, type EndedTake, type Recording, type RunningTakes } from './recorder';
import type { LiveState } from './types';
import { rigAsVoiced } from './voiced-rig';

/** All of a take that is known before its first stroke. */
export type TakePlan = Omit<Take, 'hits' | 'downbeatMs'>;

/** The world a take runs in. */
interface RunWorld {
  readonly nowMs: () => Ms;
  /** Hits of the chosen input; it is told when the first bar begins, since a bundled take plays to that. */
  readonly hitsFor: (downbeatMs: Ms) => Observable<RawHit>;
  /** The time, several times a second; after the take's end one at Infinity. */
  readonly ticks$: Observable<Ms>;
  readonly store: RunningTakes;
  readonly onTrouble: (error: unknown) => void;
  /** Told when the take is not being kept, and why; with null once it is again. */
  readonly onFailing: (failing: Error | null) => void;
  /** How it is led in; the tempo's own count-in where it is left out. */
  readonly lead?: Lead;
}

/** A take that is being played. */
export interface Run {
  readonly takeId: string;
  readonly grid: Grid;
  /** Null without a click: the first stroke is the downbeat. */
  readonly downbeatMs: Ms | null;
  readonly count: CountIn;
  /** The hits, as they come. */
  readonly hits$: Observable<RawHit>;
  /** When it is over by itself: a beat after its last bar, in the grid's time. */
  readonly endMs: Ms;
  /** A time as the grid has it: the same with a click; without one by what the player's strokes have told so far. */
  gridTime(atMs: Ms, live: LiveState | null): Ms;
  /** A time as the player has it, whom the picture follows: behind a click by what they began late. */
  playedTime(atMs: Ms, live: LiveState | null): Ms;
  readonly live$: Observable<LiveState>;
  /** Writes down what happened beside the strokes. */
  note(event: TakeEvent): void;
  /** Keeps what came so far without waiting. */
  keepNow(): void;
  /**
   * Ends it, keeps it whole where that can be, and gives it.
   * @param barsBegun given for a take that had no end: its cycles are those that had begun
   */
  finish(barsBegun?: number): Promise<EndedTake>;
}

/** Time between the press of Start and the first count: long enough to hand the first clicks over. */
const LEAD_MS: Ms = 400;

/** Without a click: the strike that started the take, and what the pad makes of it after. Common practice, no source. */
const AFTER_START_MS: Ms = 150;

/**
 * Begins a take: fixes the downbeat on the clock of the hits, after the count-in, and records from then on. Without a
 * click there is no count-in: the first stroke is the downbeat, and the grid is on a clock of its own, from 0 ms.
 * @throws InputError for a phrase that cannot be laid out, or not played without a click
 */
export function runTake(plan: TakePlan, world: RunWorld): Run {
  return plan.click === 'none' ? freeRun(plan, world) : clickRun(plan, world);
}

function clickRun(plan: TakePlan, world: RunWorld): Run {
  const { phrase, tempo } = plan;
  const count = countIn(gridOf(phrase, tempo, 0, 1), world.lead ?? plainLead);
  const downbeatMs = world.nowMs() + LEAD_MS + count.lengthMs;
  const grid = gridOf(phrase, tempo, downbeatMs);
  const hits$ = world.hitsFor(downbeatMs).pipe(share());
  const recording = record({ ...plan, downbeatMs }, hits$, world.store, {
    fromMs: downbeatMs - grid.smallestGapMs,
    onTrouble: world.onTrouble,
    onFailing: world.onFailing,
  });
  return {
    ...running(plan, world, { grid, hits$, recording, free: false }),
    downbeatMs,
    count,
    endMs: endOf(grid) + count.beatMs,
    gridTime: (atMs) => atMs,
    playedTime: (atMs, live) => atMs - (live?.lateMs ?? 0),
    finish: (barsBegun) => recording.finish(cyclesBegun(plan, grid, barsBegun)),
  };
}

function freeRun(plan: TakePlan, world: RunWorld): Run {
  const { phrase, tempo } = plan;
  const why = whyNotFree(phrase);
  if (why !== null) throw new InputError('Click', `can't be left out: the phrase ${why}`);
  const grid = gridOf(phrase, { bpm: 'bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm }, 0);
  const beatMs = steadyBeatMs(grid);
  const fromMs = world.nowMs() + AFTER_START_MS;
  // A bundled take begins a little later than that. What is before it is no stroke, nor the downbeat.
  const hits$ = world.hitsFor(fromMs + LEAD_MS).pipe(
    filter(({ atMs }) => atMs >= fromMs),
    share(),
  );
  const recording = record({ ...plan, downbeatMs: null }, hits$, world.store, {
    fromMs,
    onTrouble: world.onTrouble,
    onFailing: world.onFailing,
  });
  const gridTime: Run['gridTime'] = (atMs, live) => gridMs(live?.freeTime ?? { line: null }, beatMs, atMs);
  return {
    ...running(plan, world, { grid, hits$, recording, free: true }),
    downbeatMs: null,
    count: { bars: 0, beats: 0, sayBeats: 0, beatMs, lengthMs: 0 },
    endMs: endOf(grid) + beatMs,
    gridTime,
    playedTime: gridTime,
    finish: (barsBegun) => recording.finish(cyclesBegun(plan, grid, barsBegun), atOwnTempo),
  };
}

interface Parts {
  readonly grid: Grid;
  readonly hits$: Observable<RawHit>;
  readonly recording: Recording;
  readonly free: boolean;
}

type RunningParts = Pick<Run, 'takeId' | 'grid' | 'hits$' | 'live$' | 'note' | 'keepNow'>;

function running(
  { id, phrase, rig, limits, settings, tempo }: TakePlan,
  { ticks$ }: RunWorld,
  { grid, hits$, recording, free }: Parts,
): RunningParts {
  const take = { grid, rig: rigAsVoiced(rig, phrase, grid), settings: settingsOf(limits, settings) };
  const time = free ? { free: 'ramp' in tempo ? ('moving' as const) : ('steady' as const) } : {};
  return {
    takeId: id,
    grid,
    hits$,
    live$: live({ ...take, ...time }, hits$, ticks$),
    note: (event) => recording.note(event),
    keepNow: () => recording.keepNow(),
  };
}

const endOf = ({ bars }: Grid): Ms => bars[bars.length - 1].endMs;

function cyclesBegun({ phrase }: TakePlan, { barsPerCycle }: Grid, barsBegun?: number): number {
  if (barsBegun === undefined) return phrase.cycles;
  return Math.min(phrase.cycles, Math.max(1, Math.ceil(barsBegun / barsPerCycle)));
}

/** A take in free time says as its tempo what was played, not what was chosen. */
function atOwnTempo(take: Take): Take {
  if ('ramp' in take.tempo) return take;
  try {
    return { ...take, tempo: { bpm: meanBpm(ownTimeOf(take)) } };
  } catch (error) {
    if (error instanceof InputError) return take;
    throw error;
  }
}
