import { filter, fromEvent, interval, map, merge, scan, type Observable, type Subscription } from 'rxjs';
import type { AudioOut } from '../click/web-audio';
import type { MidiGateway } from '../midi/types';
import { eventWords } from '../take/event-words';
import { takeWatch, type WatchNews } from '../take/watch';
import type { Run } from '../take/run-take';
import type { TakeEvent } from '../sessions/take-events';
import type { Rig } from '../sessions/types';
import type { RawHit } from '../stroke';
import type { Context } from './context';

const TICK_MS = 500;
/** What has passed is said this long; what lasts stays. */
const SAID_MS = 10_000;
const LASTS: readonly TakeEvent['kind'][] = ['port gone', 'midi withdrawn', 'sound stopped'];
const nowMs = (): number => performance.now();

/** Watches over a running take. */
export interface TakeWatcher {
  /**
   * Until unsubscribed: what goes wrong is said, and written into the take.
   * @param ports names of the MIDI ports that are played; none for a bundled take
   * @param onOver called once where the take cannot go on
   */
  watch(run: Run, rig: Rig, ports: readonly string[], onOver: () => void): Subscription;
}

export function takeWatcher({ dispatch }: Context, midi: MidiGateway, out: AudioOut): TakeWatcher {
  const news = (ports: readonly string[]): Observable<WatchNews> =>
    merge(
      interval(TICK_MS).pipe(map((): WatchNews => ({ kind: 'tick', atMs: nowMs(), wallMs: Date.now() }))),
      midi.status$.pipe(map((status): WatchNews => ({ kind: 'midi', atMs: nowMs(), status }))),
      fromEvent(document, 'visibilitychange').pipe(
        map((): WatchNews => ({ kind: 'page', atMs: nowMs(), hidden: document.hidden })),
      ),
      out.changes$.pipe(map((now): WatchNews => ({ kind: 'sound', atMs: nowMs(), now }))),
      midi.hits$.pipe(
        filter((hit: RawHit) => ports.includes(hit.port)),
        map((hit): WatchNews => ({ kind: 'hit', atMs: nowMs(), hit })),
      ),
    );

  function report(event: TakeEvent): void {
    const message = eventWords(event);
    if (message === undefined) return;
    dispatch({ kind: 'message', message });
    if (LASTS.includes(event.kind)) return;
    setTimeout(() => dispatch({ kind: 'message over', message }), SAID_MS);
  }

  return {
    watch(run, rig, ports, onOver) {
      const { start, step } = takeWatch(rig, ports);
      let isOver = false;
      const watching = news(ports)
        .pipe(scan(step, start))
        .subscribe(({ events, over }) => {
          for (const event of events) {
            run.note(event);
            report(event);
          }
          if (over && !isOver) onOver();
          isOver ||= over;
        });
      // The last a page is sure to see before it is put to sleep or closed.
      watching.add(
        merge(
          fromEvent(document, 'visibilitychange').pipe(filter(() => document.hidden)),
          fromEvent(document, 'freeze'),
          fromEvent(window, 'pagehide'),
        ).subscribe(() => run.keepNow()),
      );
      return watching;
    },
  };
}
