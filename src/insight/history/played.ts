import type { TakeSummary } from '../../sessions/take-record';
import { coldAmong } from './cold';
import { dayOf } from './weeks';

/** A take with its day, reckoned once: over ten thousand takes the reading of dates is most of the work. */
export interface Played {
  readonly take: TakeSummary;
  /** With the part of it that has passed. */
  readonly day: number;
  /** The first of a practice, without a warm-up. */
  readonly cold: boolean;
}

/** All of one player's takes with their days, oldest first. */
export function playedOf(takes: readonly TakeSummary[], eastMinutes: number): readonly Played[] {
  const dated = takes.map((take) => ({ take, day: dayOf(take.recordedAt, eastMinutes) }));
  dated.sort((a, b) => a.day - b.day);
  const cold = coldAmong(dated);
  return dated.map(({ take, day }) => ({ take, day, cold: cold.has(take.id) }));
}
