import { defer, distinctUntilChanged, map, merge, pipe, scan, startWith, type Observable } from 'rxjs';
import type { OperatorFunction } from 'rxjs';
import type { Grid } from '../../exercises/types';
import type { Rig } from '../../sessions/types';
import type { Settings } from '../../settings';
import type { RawHit } from '../../stroke';
import type { Ms } from '../../units';
import { freeSteps } from '../free-run';
import { liveSteps } from './step';
import type { LiveEvent, LiveState } from '../types';

/** What is played, on what, under which settings. */
interface LiveTake {
  /** Long enough for as long as the player may go on; its times are on the clock of the hits. */
  readonly grid: Grid;
  readonly rig: Rig;
  readonly settings: Settings;
  /**
   * Only where there is no click: whether the player's tempo is meant to move. The grid is on a clock of its own then, from
   * 0 ms, at a steady tempo.
   */
  readonly free?: 'steady' | 'moving';
}

/** Hits and ticks as what is shown of a running take: its beginning at once, then each state that differs. */
export function followed({ grid, rig, settings, free }: LiveTake): OperatorFunction<LiveEvent, LiveState> {
  const { start, step } = liveSteps(
    grid,
    rig,
    settings,
    free && freeSteps(grid, settings, free === 'moving'),
  );
  return pipe(
    scan(step, start),
    map((run) => run.shown),
    startWith(start.shown),
    distinctUntilChanged(),
  );
}

/**
 * The running take of the page: one merge, one scan.
 *
 * ```ts
 * const ticks$ = merge(interval(50).pipe(map(() => performance.now())), stop$.pipe(map(() => Infinity)));
 * live({ grid, rig, settings }, hits$, ticks$).pipe(auditTime(0, animationFrameScheduler)).subscribe(show);
 * ```
 *
 * Ticks say that time passes where nothing is struck, so that a missed slot shows; the one at Infinity ends the
 * take. Every subscription follows a take of its own. What is shown is provisional: the report is the truth.
 */
export function live(
  take: LiveTake,
  hits$: Observable<RawHit>,
  ticks$: Observable<Ms>,
): Observable<LiveState> {
  const events$ = merge(
    hits$.pipe(map((hit): LiveEvent => ({ kind: 'hit', hit }))),
    ticks$.pipe(map((atMs): LiveEvent => ({ kind: 'tick', atMs }))),
  );
  return defer(() => events$.pipe(followed(take)));
}
