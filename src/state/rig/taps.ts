import type { RawHit } from '../../stroke';
import type { Ms } from '../../units';
import type { Taps } from './state';

/** A strike on purpose is at least this loud. Common practice. */
const LEAST_VELOCITY = 25;
/** Nearer to the strike before it is its bounce, or another pad that it shook. */
const BOUNCE_MS: Ms = 80;
/** The strikes of one command lie no farther apart than this. */
const TOGETHER_MS: Ms = 450;
/** So long after the last of them they are counted. */
const SETTLED_MS: Ms = 600;

/** One strike further. Soft ones and bounces are none. @param surface id of what was struck, null where no surface owns it */
export function tapped(taps: Taps | null, { atMs, velocity }: RawHit, surface: string | null): Taps | null {
  if (velocity < LEAST_VELOCITY) return taps;
  if (taps === null || atMs - taps.lastAtMs > TOGETHER_MS) return { count: 1, lastAtMs: atMs, surface };
  if (atMs - taps.lastAtMs < BOUNCE_MS) return taps;
  return { count: taps.count + 1, lastAtMs: atMs, surface: taps.surface === surface ? surface : null };
}

/** Strikes that can be counted now: none comes after them any more. */
export function settledTaps(taps: Taps | null, atMs: Ms): Taps | null {
  return taps !== null && atMs - taps.lastAtMs >= SETTLED_MS ? taps : null;
}
