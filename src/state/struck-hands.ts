import type { RawHit } from '../stroke';
import type { Strikes } from '../take/types';

/** Two strikes closer than this are one hand's bounce, not the other hand. */
const STRIKE_REST_MS = 150;

export const noStrikes: Strikes = { first: null, second: null, firstHand: 'R' };

/** One strike further: the first hand's, then the other's. What bounces, or comes when both have struck, changes nothing. */
export function nextStruck(strikes: Strikes, hit: RawHit): Strikes {
  if (strikes.first === null) return { ...strikes, first: hit };
  if (strikes.second !== null || hit.atMs - strikes.first.atMs < STRIKE_REST_MS) return strikes;
  return { ...strikes, second: hit };
}
