import { exp } from '../../exact';
import type { Posterior, Spread } from './posterior';

/** What became of a ceiling over a spell. */
export type Change =
  | {
      readonly kind: 'up' | 'down';
      /** Percent a week, with its 90 % interval. */
      readonly perWeek: Spread;
      readonly weeks: number;
      /** bpm on the first day and on the last, as the line has it. */
      readonly from: number;
      readonly to: number;
    }
  /** No change beyond noise. */
  | { readonly kind: 'none'; readonly perWeek: Spread; readonly weeks: number }
  | { readonly kind: 'not enough'; readonly days: number };

/** Percent over the spell, and percent a week. Source: grading.md section 7. */
const LEAST_PERCENT = 2;
const NOISE_PERCENT = 1;
const WEEK_DAYS = 7;

/**
 * Change of a ceiling: told where the interval of its growth excludes nought and the whole of it is over 2 %; "no change
 * beyond noise" where the interval lies within 1 % a week; else there is not enough to tell.
 */
export function changeOf({ perWeek, days, ceilingOn }: Posterior): Change {
  const [first, last] = days;
  const notEnough = { kind: 'not enough', days: last - first + 1 } as const;
  if (perWeek === undefined) return notEnough;
  const weeks = (last - first) / WEEK_DAYS;
  const [low, high] = perWeek.interval;
  const percents = { value: percent(perWeek.value), interval: [percent(low), percent(high)] as const };
  if ((low > 0 || high < 0) && Math.abs(percent(perWeek.value * weeks)) > LEAST_PERCENT) {
    const [from, to] = [ceilingOn(first).value, ceilingOn(last).value];
    return { kind: low > 0 ? 'up' : 'down', perWeek: percents, weeks, from, to };
  }
  if (percents.interval[0] >= -NOISE_PERCENT && percents.interval[1] <= NOISE_PERCENT) {
    return { kind: 'none', perWeek: percents, weeks };
  }
  return notEnough;
}

const percent = (lnRatio: number): number => 100 * (exp(lnRatio) - 1);
