import { filter, fromEvent, interval, map, merge, scan, type Observable, type Subscription } from 'rxjs';
import type { AudioOut } from '../click/web-audio';
import type { MidiDoor } from '../midi/types';
import type { On } from '../state/commands';
import { eventWords } from '../take/event-words';
import { roomWatch, type RoomNews } from '../take/watch';
import type { Run } from '../take/run-take';
import type { TakeEvent } from '../sessions/take-events';
import { keptView } from '../state/reducer';
import type { Rig } from '../sessions/types';
import type { RawHit } from '../stroke';
import type { Desk } from './page-effects';
import type { Playing } from './running-take';

const TICK_MS = 500;
/** What has passed is said this long; what lasts stays. */
const SAID_MS = 10_000;
const LASTS: readonly TakeEvent['kind'][] = ['port gone', 'midi withdrawn', 'sound stopped'];
const nowMs = (): number => performance.now();

/** Watches over a running take. */
export interface RoomWatcher {
  /**
   * Until unsubscribed: what goes wrong is said, and written into the take.
   * @param ports names of the MIDI ports that are played; none for a bundled take
   * @param onOver called once where the take cannot go on
   */
  watch(run: Run, rig: Rig, ports: readonly string[], onOver: () => void): Subscription;
}

export function roomWatcher({ sitting, say }: Desk, door: MidiDoor, out: AudioOut): RoomWatcher {
  const news = (ports: readonly string[]): Observable<RoomNews> =>
    merge(
      interval(TICK_MS).pipe(map((): RoomNews => ({ kind: 'tick', atMs: nowMs(), wallMs: Date.now() }))),
      door.status$.pipe(map((status): RoomNews => ({ kind: 'midi', atMs: nowMs(), status }))),
      fromEvent(document, 'visibilitychange').pipe(
        map((): RoomNews => ({ kind: 'page', atMs: nowMs(), hidden: document.hidden })),
      ),
      out.changes$.pipe(map((now): RoomNews => ({ kind: 'sound', atMs: nowMs(), now }))),
      door.hits$.pipe(
        filter((hit: RawHit) => ports.includes(hit.port)),
        map((hit): RoomNews => ({ kind: 'hit', atMs: nowMs(), hit })),
      ),
    );

  function tell(event: TakeEvent): void {
    const message = eventWords(event);
    if (message === undefined) return;
    say({ kind: 'message', message });
    if (LASTS.includes(event.kind)) return;
    setTimeout(() => {
      if (sitting().message === message) say({ kind: 'message', message: '' });
    }, SAID_MS);
  }

  return {
    watch(run, rig, ports, onOver) {
      const { start, step } = roomWatch(rig, ports);
      let isOver = false;
      const watching = news(ports)
        .pipe(scan(step, start))
        .subscribe(({ events, over }) => {
          for (const event of events) {
            run.note(event);
            tell(event);
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

const KEPT = 'view';

/** What Play may ask for of what it shows: kept for another day. */
export function roomWires(on: On, { sitting, say, store, trouble }: Desk, play: Pick<Playing, 'note'>): void {
  const keep = (): void => {
    const { view, figureChoice } = sitting();
    store()
      .keep(KEPT, { ...view, figure: figureChoice })
      .catch(trouble);
  };
  on('choose-figure', ({ figure }) => {
    say({ kind: 'figure', figure, by: 'player' });
    play.note({ kind: 'figure', atMs: nowMs(), figure, by: 'player' });
    keep();
  });
  on('view', ({ change }) => {
    say({ kind: 'view', change });
    keep();
  });
}

/** The choices of another day. */
export async function keptChoices({ say, store }: Desk): Promise<void> {
  const kept = keptView(await store().kept(KEPT));
  if (kept === undefined) return;
  say({ kind: 'view', change: kept.view });
  say({ kind: 'figure', figure: kept.figure, by: 'player' });
}
