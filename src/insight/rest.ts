/** What rest asks of a take: when it began (ISO 8601, UTC), how long it lasted, who played it. */
export interface PlayedTake {
  readonly recordedAt: string;
  readonly minutes: number;
  readonly source: 'played' | 'model' | 'imported';
}

/** Minutes of play after which a rest is due. Common practice, no source. */
const REST_EVERY_MINUTES = 10;

/**
 * A quiet line after the take that fills each ten minutes of play today; empty after every other.
 * @param fromIso when today began, in UTC
 * @example restWords([{ recordedAt: '2026-03-02T17:00:00.000Z', minutes: 10.4, source: 'played' }], '2026-03-02T00:00:00.000Z') // => 'Ten minutes of play today: put the sticks down for a moment, and keep the headphones low.'
 */
export function restWords(takes: readonly PlayedTake[], fromIso: string): string {
  const today = ofToday(takes, fromIso);
  const minutes = today.reduce((sum, take) => sum + take.minutes, 0);
  const before = minutes - (today.length === 0 ? 0 : newest(today).minutes);
  const tens = Math.floor(minutes / REST_EVERY_MINUTES);
  if (tens === 0 || Math.floor(before / REST_EVERY_MINUTES) === tens) return '';
  const count = tens === 1 ? 'Ten minutes' : `${tens * REST_EVERY_MINUTES} minutes`;
  return `${count} of play today: put the sticks down for a moment, and keep the headphones low.`;
}

/** True where nothing was played yet today: the take to come is a cold one. */
export function isCold(takes: readonly PlayedTake[], fromIso: string): boolean {
  return ofToday(takes, fromIso).length === 0;
}

const ofToday = (takes: readonly PlayedTake[], fromIso: string): readonly PlayedTake[] =>
  takes.filter(({ recordedAt, source }) => source === 'played' && recordedAt >= fromIso);

const newest = (takes: readonly PlayedTake[]): PlayedTake =>
  takes.reduce((last, take) => (take.recordedAt > last.recordedAt ? take : last));
