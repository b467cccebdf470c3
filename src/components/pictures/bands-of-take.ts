import { distributionOf, madSpread, median } from '../../grading/numbers/statistics';
import { isAsDue } from '../../grading/facts/facts';
import type { Report } from '../../grading/types';
import type { BandsOf } from './by-place';

/** A band reaches at least so far to each side of its middle: a narrower one is fair to nobody. */
const LEAST_DB = 1.5;
/** Spreads to each side that hold four strokes of five. Source: 0.9 quantile of the normal distribution. */
const REACH = 1.2816;

/** A take's own levels as bands: at each slot of a bar its median over the passes, with the spread that holds four of five. */
export function bandsOfTake(report: Report): BandsOf {
  const levels = new Map<string, number[]>();
  for (const of of report.slots) {
    // as played: the bar's dynamics are in the band as in the strokes
    const { level, slot, bar } = of;
    if (!isAsDue(of) || level === null) continue;
    const key = `${report.bars[bar]?.variation ?? ''} ${slot}`;
    levels.set(key, [...(levels.get(key) ?? []), level]);
  }
  return (variation, slot) => {
    const own = levels.get(`${variation} ${slot}`);
    if (own === undefined) return undefined;
    const of = distributionOf(own);
    const middle = median(of) ?? 0;
    const reach = Math.max(LEAST_DB, REACH * (madSpread(of) ?? 0));
    return { fromDb: middle - reach, toDb: middle + reach };
  };
}
