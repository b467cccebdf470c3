import { exp } from '../../exact';
import { ceilingOn, type Ceiling } from './ceiling';
import type { Posterior, Spread } from './posterior';
import type { TriedBars } from '../../grading/tried-bars';

/** What became of a ceiling over a spell. */
export type Change =
  | {
      readonly kind: 'up' | 'down';
      /** Percent a week, with its 90 % interval. */
      readonly perWeek: Spread;
      readonly weeks: number;
      /** On the first day and on the last. */
      readonly from: Ceiling;
      readonly to: Ceiling;
    }
  /** No change beyond noise. */
  | { readonly kind: 'none'; readonly perWeek: Spread; readonly weeks: number }
  /** `perWeek`: null where days are too few to ask. */
  | { readonly kind: 'not enough'; readonly days: number; readonly perWeek: Spread | null };

/** Percent over the spell, and percent a week. Source: grading.md section 7. */
const LEAST_PERCENT = 2;
/**
 * Less likely than this to go the other way: 0.05 told a change of 8 to 9 in 100 steady players with bad days, 0.045 of 7 to
 * 8, and a fall of 15 % of 75 (`npm run bench progress`).
 */
const WRONG_SHARE = 0.045;
const NOISE_PERCENT = 1;
const WEEK_DAYS = 7;

/**
 * Change of a ceiling over a spell's bars: told where its growth is as good as surely of one sign and the whole of it is over
 * 2 %; "no change beyond noise" where the interval lies within 1 % a week; else there is not enough to tell.
 */
export function changeOf(tried: readonly TriedBars[], posterior: Posterior): Change {
  const { perWeek, days } = posterior;
  const [first, last] = days;
  const playedDays = last - first + 1;
  if (perWeek === undefined) return { kind: 'not enough', days: playedDays, perWeek: null };
  const weeks = (last - first) / WEEK_DAYS;
  const { shareUp } = perWeek;
  const [low, high] = perWeek.interval;
  const percents = { value: percent(perWeek.value), interval: [percent(low), percent(high)] as const };
  const isSure = Math.min(shareUp, 1 - shareUp) < WRONG_SHARE;
  if (isSure && Math.abs(percent(perWeek.value * weeks)) > LEAST_PERCENT) {
    const [from, to] = [first, last].map((day) => ceilingOn(day, tried, posterior));
    return { kind: shareUp > 0.5 ? 'up' : 'down', perWeek: percents, weeks, from, to };
  }
  if (percents.interval[0] >= -NOISE_PERCENT && percents.interval[1] <= NOISE_PERCENT) {
    return { kind: 'none', perWeek: percents, weeks };
  }
  return { kind: 'not enough', days: playedDays, perWeek: percents };
}

const percent = (lnRatio: number): number => 100 * (exp(lnRatio) - 1);
