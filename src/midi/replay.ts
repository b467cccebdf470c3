import { Observable, asyncScheduler, type SchedulerLike } from 'rxjs';
import type { Take } from '../sessions/types';
import type { RawHit } from '../stroke';
import type { Ms } from '../units';

interface ReplayOptions {
  /** The clock of the hits that come out: `() => performance.now()` in a page. */
  readonly nowMs: () => Ms;
  readonly scheduler?: SchedulerLike;
}

/**
 * A take as an input port: its hits come in real time, stamped as if its first bar began at `downbeatMs`. A take
 * without a downbeat begins with its first hit there. Each hit comes at or a little after its stamp, in order;
 * hits that were due before the subscription come at once. Completes after the last.
 *
 * In the page: `merge(gateway.hits$, replay(bundled, downbeatMs, { nowMs: () => performance.now() }))`, with the
 * take's own rig, phrase and tempo. In tests: a `VirtualTimeScheduler` and its `now`.
 */
export function replay(take: Take, downbeatMs: Ms, options: ReplayOptions): Observable<RawHit> {
  const { nowMs, scheduler = asyncScheduler } = options;
  const { hits } = take;
  return new Observable((port) => {
    if (hits.length === 0) {
      port.complete();
      return undefined;
    }
    const shiftMs = downbeatMs - (take.downbeatMs ?? hits[0].atMs);
    let next = 0;
    const waitMs = (): Ms => Math.max(0, hits[next].atMs + shiftMs - nowMs());
    return scheduler.schedule(function () {
      while (next < hits.length && waitMs() === 0 && !port.closed) {
        const hit = hits[next];
        next += 1;
        port.next({ ...hit, atMs: hit.atMs + shiftMs });
      }
      if (next < hits.length) this.schedule(undefined, waitMs());
      else port.complete();
    }, waitMs());
  });
}
