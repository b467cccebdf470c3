import { distinctUntilChanged, interval, map, type Subscription } from 'rxjs';
import type { Effects } from '../state/dispatcher';
import type { Ms } from '../units';
import type { Context } from './context';

const TICK_MS = 250;
const nowMs = (): Ms => performance.now();

/** A climb goes on by itself: counts the seconds to the next take and starts it, as long as the player stays on Play. */
export function climbEffects({ dispatch }: Context) {
  let awaited: Ms | null = null;
  let waiting: Subscription | null = null;

  function secondsTo(startsAtMs: Ms): Subscription {
    const seconds$ = interval(TICK_MS).pipe(
      map(() => Math.ceil((startsAtMs - nowMs()) / 1000)),
      distinctUntilChanged(),
    );
    return seconds$.subscribe((seconds) => {
      if (seconds > 0) dispatch({ kind: 'climb time', atMs: nowMs() });
      else {
        dispatch({ kind: 'climb held' });
        dispatch({ kind: 'start' });
      }
    });
  }

  return {
    changed({ climb, running, screen }) {
      const startsAtMs = climb?.startsAtMs ?? null;
      if (startsAtMs !== null && (running !== null || screen !== 'play')) dispatch({ kind: 'climb held' });
      else if (startsAtMs !== awaited) {
        awaited = startsAtMs;
        waiting?.unsubscribe();
        waiting = startsAtMs === null ? null : secondsTo(startsAtMs);
      }
    },
  } satisfies Effects;
}
