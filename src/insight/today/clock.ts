import type { Ms } from '../../units';
import type { TodayItem } from './types';

/** A plan that is being played through. Times are of any one clock. */
export interface TodayClock {
  readonly plan: readonly TodayItem[];
  /** Index of the item in turn. */
  readonly item: number;
  /** When it began. */
  readonly sinceMs: Ms;
  readonly nowMs: Ms;
}

export function clockStarted(plan: readonly TodayItem[], nowMs: Ms): TodayClock {
  return { plan, item: 0, sinceMs: nowMs, nowMs };
}

/** The clock after some time. It never moves on by itself: a hand may be in the middle of something. */
export function clockAt(clock: TodayClock, nowMs: Ms): TodayClock {
  return { ...clock, nowMs };
}

/** The next item begins; after the last one there is no clock. */
export function clockMovedOn(clock: TodayClock, nowMs: Ms): TodayClock | null {
  if (clock.item === clock.plan.length - 1) return null;
  return { ...clock, item: clock.item + 1, sinceMs: nowMs, nowMs };
}

/** What is left of the item in turn; negative once it is time to move on. */
export function leftMs({ plan, item, sinceMs, nowMs }: TodayClock): Ms {
  return plan[item].minutes * 60_000 - (nowMs - sinceMs);
}

/**
 * A stretch of time as a clock shows it.
 * @example clockWords(125_400) // => '2:06'
 * @example clockWords(-3000) // => '0:00'
 */
export function clockWords(ms: Ms): string {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}

/** What to do once the time of an item is up; empty before. */
export function moveOnWords(clock: TodayClock): string {
  if (leftMs(clock) > 0) return '';
  const next = clock.plan.at(clock.item + 1);
  return next === undefined ? 'Time is up: that was today. Stop here.' : `Time to move on: ${next.title}.`;
}
