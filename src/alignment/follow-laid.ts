import type { Ms } from '../units';

/** How the strokes of a running take lie against the click, as far as they tell. */
export interface Reading {
  /** Places by which all of it was begun late, or came late, and the same in ms. */
  readonly places: number;
  readonly lateMs: Ms;
  /** ms later per ms, from `fromMs` on: negative is faster than the click. */
  readonly slope: number;
  readonly fromMs: Ms;
  /** Off-beats later than on-beats by so much; 0 where it is too little to say. */
  readonly swingMs: Ms;
  /**
   * What can be said of early and late: of each stroke and hand; not of the hands, where swing and a late hand would look
   * alike and are large; nothing, where the strokes lie anywhere in their partials.
   */
  readonly told: 'all' | 'not by hand' | 'nothing';
}

/** As it was due. */
export const plainReading: Reading = {
  places: 0,
  lateMs: 0,
  slope: 0,
  fromMs: 0,
  swingMs: 0,
  told: 'all',
};

/**
 * A time of the player's on the click's clock: the late start off, the own tempo too. Keeps the order of times.
 * @example laidMs({ ...plainReading, lateMs: 500 }, 2000) // => 1500
 */
export function laidMs({ lateMs, slope, fromMs }: Reading, atMs: Ms): Ms {
  const onTime = atMs - lateMs;
  return slope === 0 || !Number.isFinite(atMs) ? onTime : fromMs + (onTime - fromMs) / (1 + slope);
}

export const isSame = (one: Reading, other: Reading): boolean =>
  one.places === other.places &&
  one.slope === other.slope &&
  one.swingMs === other.swingMs &&
  one.told === other.told;
