/** Days and weeks as figures: 0 is 1 January 1970. A day is the player's own: `eastMinutes` is what their clock is ahead of UTC. */

const DAY_MS = 86_400_000;
const WEEK_DAYS = 7;
/** 1 January 1970 was a Thursday; weeks begin on Monday (ISO 8601). */
const MONDAY = 4;

/**
 * The day of a moment, with its part that has passed.
 * @example dayOf('1970-01-02T12:00:00.000Z', 0) // => 1.5
 * @example dayOf('1970-01-02T23:30:00.000Z', 60) // => 2.020833333333333
 */
export function dayOf(iso: string, eastMinutes: number): number {
  return (Date.parse(iso) + eastMinutes * 60_000) / DAY_MS;
}

/**
 * The Monday of a day's week, as a day.
 * @example mondayOf(dayOf('2026-11-25T10:00:00.000Z', 0)) // => 20780
 */
export function mondayOf(day: number): number {
  return Math.floor((day - MONDAY) / WEEK_DAYS) * WEEK_DAYS + MONDAY;
}

/**
 * A day as a date.
 * @example dateOf(20780) // => '2026-11-23'
 */
export function dateOf(day: number): string {
  return new Date(Math.floor(day) * DAY_MS).toISOString().slice(0, 10);
}
