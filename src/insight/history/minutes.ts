import type { Played } from './played';
import { dateOf, mondayOf } from './weeks';

/** What was played in one week. */
export interface WeekPlayed {
  /** Its Monday, `2026-11-23`. */
  readonly from: string;
  /** From the first stroke of each take to its last: pauses between takes are none. */
  readonly minutes: number;
  readonly takes: number;
  readonly days: number;
}

/** Practice of every week from the first with a take to the last, newest first; one without a take has no minutes. */
export function weeksPlayed(played: readonly Played[]): readonly WeekPlayed[] {
  const weeks = new Map<number, { minutes: number; takes: number; days: Set<number> }>();
  for (const one of played) {
    const day = Math.floor(one.day);
    const week = weeks.get(mondayOf(day)) ?? { minutes: 0, takes: 0, days: new Set() };
    week.minutes += one.take.minutes;
    week.takes += 1;
    week.days.add(day);
    weeks.set(mondayOf(day), week);
  }
  if (weeks.size === 0) return [];
  const [first, last] = [Math.min(...weeks.keys()), Math.max(...weeks.keys())];
  const all: WeekPlayed[] = [];
  for (let monday = last; monday >= first; monday -= 7) {
    const { minutes = 0, takes: n = 0, days } = weeks.get(monday) ?? {};
    all.push({ from: dateOf(monday), minutes, takes: n, days: days?.size ?? 0 });
  }
  return all;
}
