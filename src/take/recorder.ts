import { asyncScheduler, type Observable, type SchedulerLike, type Subscription } from 'rxjs';
import type { StoredEvent, TakeEvent } from '../sessions/take-events';
import type { Take } from '../sessions/types';
import type { RawHit } from '../stroke';
import type { Ms } from '../units';

/** All of a take but its hits: what is known when it begins. */
export type TakeOpening = Omit<Take, 'hits'>;

/** Where a running take is kept. The browser store is one. Every promise fails where nothing could be kept. */
export interface RunningTakes {
  /** Called once more where the opening has changed: events were added to it. */
  begin(opening: TakeOpening): Promise<void>;
  /**
   * Hits that came since the last chunk; a chunk kept twice counts once.
   * @returns false where the take is not begun here: all that was kept was deleted since
   */
  append(takeId: string, chunk: number, hits: readonly RawHit[]): Promise<boolean>;
  /** Keeps the whole take and forgets its chunks, both or neither. */
  finish(take: Take): Promise<void>;
  discard(takeId: string): Promise<void>;
}

interface RecorderOptions {
  /** Hits before this are not of the take: playing along with the count-in, the strike on a start pad. */
  readonly fromMs?: Ms;
  /** Hits wait no longer than this until they are kept. */
  readonly keptWithinMs?: Ms;
  readonly scheduler?: SchedulerLike;
  /** Called when the stream of hits fails. */
  readonly onTrouble?: (error: unknown) => void;
  /** Called when keeping fails, with why, and with null once all is kept again: what fails is tried again with the next hits. */
  readonly onFailing?: (failing: Error | null) => void;
}

/** A take that has ended, and why it could not be kept; null where it was. */
export interface EndedTake {
  readonly take: Take;
  readonly unkept: Error | null;
}

export interface Recording {
  /** The hits so far, in time order. */
  hits(): readonly RawHit[];
  /** Writes down what happened beside the strokes; kept as they are. */
  note(event: TakeEvent): void;
  /** Keeps what is not kept yet without waiting: for a page that may be put to sleep. */
  keepNow(): void;
  /**
   * Ends the take and keeps it whole; under two hits it is no take, and nothing of it is kept. It comes back even where
   * keeping failed, so that it can be reviewed and downloaded: nothing that was played is lost by a full disk.
   * @param cycles how many the take is of, where that is known at its end only
   * @param known what else is known then, from the take itself
   */
  finish(cycles?: number, known?: (take: Take) => Take): Promise<EndedTake>;
  /** Ends the take and forgets it. */
  discard(): Promise<void>;
}

const KEPT_WITHIN_MS = 500;
const FEWEST_HITS = 2;

/**
 * Records a take: every raw hit, before anything is made of it, and kept as it goes, so that a page that dies
 * loses at most the last half second. Begin it when the count-in begins:
 *
 * ```ts
 * const recording = record(opening, hits$, store, { fromMs: downbeatMs - gapMs });
 * const { take } = await recording.finish();   // then grade it
 * ```
 *
 * Hits of several ports may come a little out of order; the take has them in time order, equals as they came.
 * A stream of hits that ends or fails does not end the take.
 */
// eslint-disable-next-line max-lines-per-function -- one recording: what is struck, what is kept of it, and how it ends share its state
export function record(
  opening: TakeOpening,
  hits$: Observable<RawHit>,
  store: RunningTakes,
  options: RecorderOptions = {},
): Recording {
  const { fromMs = -Infinity, keptWithinMs = KEPT_WITHIN_MS, scheduler = asyncScheduler } = options;
  const hits: RawHit[] = [];
  let unkept: RawHit[] = [];
  let chunk = 0;
  let flushing: { readonly timer: Subscription; readonly sinceMs: Ms } | null = null;
  let events: readonly StoredEvent[] = opening.events ?? [];
  /** What the store has of the opening; null: not begun. */
  let begunWith: readonly StoredEvent[] | null = null;
  let writing: Promise<void> = Promise.resolve();

  let isFailing = false;

  const opened = (): TakeOpening => (events.length === 0 ? opening : { ...opening, events });

  function report(failing: Error | null): void {
    if (failing !== null || isFailing) options.onFailing?.(failing);
    isFailing = failing !== null;
  }

  /** One write at a time, in order. */
  function keep(): void {
    flushing?.timer.unsubscribe();
    flushing = null;
    writing = writing.then(keepNext);
  }

  /** Keeps what is not kept yet; what fails stays to be tried with the next. */
  async function keepNext(): Promise<void> {
    const these = unkept;
    const now = events;
    unkept = [];
    try {
      if (begunWith !== now) await store.begin(opened());
      begunWith = now;
      if (these.length === 0) return;
      if (await store.append(opening.id, chunk, these)) {
        chunk += 1;
        report(null);
      } else beginAgain();
    } catch (error) {
      unkept = [...these, ...unkept];
      report(asError(error));
    }
  }

  /** The store has lost the take: it is given all of it. */
  function beginAgain(): void {
    begunWith = null;
    chunk = 0;
    unkept = [...hits];
    keep();
  }

  /** A hidden page's timers may be held back for a minute; its hits are not. */
  function keepSoon(atMs: Ms): void {
    flushing ??= { timer: scheduler.schedule(keep, keptWithinMs), sinceMs: atMs };
    if (atMs - flushing.sinceMs > keptWithinMs) keep();
  }

  const hearing = hits$.subscribe({
    next(hit) {
      if (hit.atMs < fromMs) return;
      insertByTime(hits, hit);
      unkept.push(hit);
      keepSoon(hit.atMs);
    },
    error: (error: unknown) => options.onTrouble?.(error),
  });
  keep();

  async function end(): Promise<void> {
    hearing.unsubscribe();
    flushing?.timer.unsubscribe();
    flushing = null;
    await writing;
  }

  return {
    hits: () => hits,
    note(event) {
      events = [...events, event].sort((a, b) => a.atMs - b.atMs);
      keepSoon(event.atMs);
    },
    keepNow: keep,
    async finish(cycles = opening.phrase.cycles, known = (take) => take) {
      await end();
      const take = known({ ...opened(), phrase: { ...opening.phrase, cycles }, hits: [...hits] });
      try {
        await (hits.length < FEWEST_HITS ? store.discard(take.id) : store.finish(take));
        return { take, unkept: null };
      } catch (error) {
        return { take, unkept: asError(error) };
      }
    },
    async discard() {
      await end();
      await store.discard(opening.id);
    },
  };
}

const asError = (error: unknown): Error => (error instanceof Error ? error : new Error(String(error)));

function insertByTime(hits: RawHit[], hit: RawHit): void {
  let at = hits.length;
  while (at > 0 && hits[at - 1].atMs > hit.atMs) at -= 1;
  if (at === hits.length) hits.push(hit);
  else hits.splice(at, 0, hit);
}
