import { share, type Observable } from 'rxjs';
import { countIn, plainLead, type CountIn } from '../click/schedule';
import type { Lead } from '../click/types';
import { gridOf } from '../exercises/grid';
import type { Grid } from '../exercises/types';
import type { TakeEvent } from '../sessions/take-events';
import type { Take } from '../sessions/types';
import { settingsOf } from '../settings';
import type { RawHit } from '../stroke';
import type { Ms } from '../units';
import { live } from './live';
import { record, type RunningTakes } from './recorder';
import type { LiveState } from './types';
import { rigAsVoiced } from './voiced-rig';

/** All of a take that is known before its first stroke. */
export type TakePlan = Omit<Take, 'hits' | 'downbeatMs'>;

/** The world a take runs in. */
export interface RunWorld {
  readonly nowMs: () => Ms;
  /** Hits of the chosen input; it is told when the first bar begins, since a bundled take plays to that. */
  readonly hitsFor: (downbeatMs: Ms) => Observable<RawHit>;
  /** The time, several times a second; after the take's end one at Infinity. */
  readonly ticks$: Observable<Ms>;
  readonly store: RunningTakes;
  readonly onTrouble: (error: unknown) => void;
  /** How it is led in; the tempo's own count-in where it is left out. */
  readonly lead?: Lead;
}

/** A take that is being played. */
export interface Run {
  readonly takeId: string;
  readonly grid: Grid;
  readonly downbeatMs: Ms;
  readonly count: CountIn;
  /** The hits, as they come. */
  readonly hits$: Observable<RawHit>;
  /** When it is over by itself: a beat after its last bar. */
  readonly endMs: Ms;
  readonly live$: Observable<LiveState>;
  /** Writes down what happened beside the strokes. */
  note(event: TakeEvent): void;
  /** Keeps what came so far without waiting. */
  keepNow(): void;
  /**
   * Ends it, keeps it whole and gives it.
   * @param barsBegun given for a take that had no end: its cycles are those that had begun
   */
  finish(barsBegun?: number): Promise<Take>;
}

/** Time between the press of Start and the first count: long enough to hand the first clicks over. */
const LEAD_MS: Ms = 400;

/**
 * Begins a take: fixes the downbeat on the clock of the hits, after the count-in, and records from then on.
 * @throws InputError for a phrase that cannot be laid out
 */
export function runTake(plan: TakePlan, world: RunWorld): Run {
  const { phrase, tempo, rig, limits } = plan;
  const count = countIn(gridOf(phrase, tempo, 0, 1), world.lead ?? plainLead);
  const downbeatMs = world.nowMs() + LEAD_MS + count.lengthMs;
  const grid = gridOf(phrase, tempo, downbeatMs);
  const hits$ = world.hitsFor(downbeatMs).pipe(share());
  const recording = record({ ...plan, downbeatMs }, hits$, world.store, {
    fromMs: downbeatMs - grid.smallestGapMs,
    onTrouble: world.onTrouble,
  });
  return {
    takeId: plan.id,
    grid,
    downbeatMs,
    count,
    hits$,
    endMs: grid.bars[grid.bars.length - 1].endMs + count.beatMs,
    live$: live(
      { grid, rig: rigAsVoiced(rig, phrase, grid), settings: settingsOf(limits, plan.settings) },
      hits$,
      world.ticks$,
    ),
    note: (event) => recording.note(event),
    keepNow: () => recording.keepNow(),
    finish: (barsBegun) =>
      recording.finish(
        barsBegun === undefined
          ? phrase.cycles
          : Math.min(phrase.cycles, Math.max(1, Math.ceil(barsBegun / grid.barsPerCycle))),
      ),
  };
}
