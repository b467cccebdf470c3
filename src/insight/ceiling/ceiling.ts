import type { Bpm } from '../../units';
import type { Posterior, Spread } from './posterior';
import { NOW_DAYS } from './spells';
import { barsOf, likeTempi, type TriedBars } from '../../grading/tried-bars';

/** The tempo at which 4 bars of 5 of a variation are clean. */
export type Ceiling =
  /** bpm: posterior median with its 5 % and 95 % points. */
  | { readonly kind: 'at'; readonly bars: number; readonly clean: Spread }
  /** Nothing faster was played than `bpm`: the ceiling is over it. */
  | { readonly kind: 'above'; readonly bars: number; readonly bpm: Bpm }
  /** Nothing slower was played than `bpm`, and it wasn't clean there. */
  | { readonly kind: 'below'; readonly bars: number; readonly bpm: Bpm }
  | { readonly kind: 'too few bars'; readonly bars: number };

/** Source: grading.md section 7. */
export const FEWEST_BARS = 6;
const FEWEST_AT_AN_END = 4;

/**
 * Ceiling on a day of a spell: what the posterior says of that day, but never over the fastest tempo nor under the slowest
 * that was tried with four bars or more in the three weeks up to it (where there is none, in the whole spell).
 * @param tried the spell's bars, of one variation
 */
export function ceilingOn(day: number, tried: readonly TriedBars[], posterior: Posterior): Ceiling {
  const bars = barsOf(tried);
  if (bars < FEWEST_BARS) return { kind: 'too few bars', bars };
  const clean = posterior.ceilingOn(day);
  const [slowest, fastest] = endsBy(day, tried);
  if (fastest !== undefined && clean.value > fastest) return { kind: 'above', bars, bpm: fastest };
  if (slowest !== undefined && clean.value < slowest) return { kind: 'below', bars, bpm: slowest };
  return { kind: 'at', bars, clean };
}

type Ends = readonly [slowest: Bpm | undefined, fastest: Bpm | undefined];

function endsBy(day: number, tried: readonly TriedBars[]): Ends {
  const lately = endsOf(tried.filter((one) => one.day <= day && one.day > day - NOW_DAYS));
  return lately[0] === undefined ? endsOf(tried) : lately;
}

/** Slowest and fastest tempo with four bars or more. */
function endsOf(tried: readonly TriedBars[]): Ends {
  const enough = likeTempi(tried).filter(({ bars }) => bars >= FEWEST_AT_AN_END);
  return [enough.at(0)?.bpm, enough.at(-1)?.bpm];
}
