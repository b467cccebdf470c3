import type { Bpm, Ms } from '../units';

/** Taps this far apart belong to different tempos: 24 bpm. */
const LONGEST_MS: Ms = 2500;
/** Two taps nearer than this are one tap's bounce: 500 bpm. */
const SHORTEST_MS: Ms = 120;
/** An interval this far off the mean of those before begins a new tempo. Common practice, no source. */
const NEW_TEMPO = 0.25;
/** Taps that count: the mean of seven intervals. */
const KEPT = 8;

/**
 * The taps that count after one more: a pause or a clearly other interval begins anew.
 * @param taps their times, in order
 * @example withTap([0, 500, 1000], 1500) // => [0, 500, 1000, 1500]
 * @example withTap([0, 500, 1000], 9000) // => [9000]
 */
export function withTap(taps: readonly Ms[], atMs: Ms): readonly Ms[] {
  const last = taps.at(-1);
  if (last === undefined) return [atMs];
  const intervalMs = atMs - last;
  if (intervalMs < SHORTEST_MS) return taps;
  if (intervalMs > LONGEST_MS) return [atMs];
  const meanMs = meanOf(taps);
  const isOther = meanMs !== undefined && Math.abs(intervalMs / meanMs - 1) > NEW_TEMPO;
  return isOther ? [last, atMs] : [...taps.slice(-(KEPT - 1)), atMs];
}

/**
 * Tempo of taps, one a beat, rounded to whole bpm; undefined before the second.
 * @example tappedBpm([0, 625, 1250]) // => 96
 */
export function tappedBpm(taps: readonly Ms[]): Bpm | undefined {
  const meanMs = meanOf(taps);
  return meanMs === undefined ? undefined : Math.round(60_000 / meanMs);
}

function meanOf(taps: readonly Ms[]): Ms | undefined {
  return taps.length < 2 ? undefined : (taps[taps.length - 1] - taps[0]) / (taps.length - 1);
}
