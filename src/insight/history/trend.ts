import { theilSen } from '../../grading/numbers/theil-sen';
import type { SeriesPoint } from './series';

/** What became of a figure over weeks. */
export type Trend =
  | {
      readonly kind: 'known';
      /** *none*: no change beyond noise, the interval of the slope holds nought. */
      readonly change: 'up' | 'down' | 'none';
      /** Days of the first point and the last. */
      readonly days: readonly [number, number];
      /** Where the line stands on those days, in the figure's unit. */
      readonly from: number;
      readonly to: number;
      /** Theil and Sen's slope, in the figure's unit, with its 90 % interval. */
      readonly perWeek: number;
      readonly interval: readonly [number, number];
      readonly points: number;
    }
  /** Fewer than four points, or under a week from the first to the last. */
  | { readonly kind: 'too few'; readonly points: number };

/**
 * Of three points one in three rows goes one way by chance alone, of four one in twelve (2 of 4!): under the one in ten
 * that a 90 % interval allows.
 */
const FEWEST_POINTS = 4;
const WEEK_DAYS = 7;

/** Trend of points of one kind, in the order of days. */
export function trendOf(points: readonly SeriesPoint[]): Trend {
  const [first, last] = [points.at(0), points.at(-1)];
  const tooFew = { kind: 'too few', points: points.length } as const;
  if (first === undefined || last === undefined || points.length < FEWEST_POINTS) return tooFew;
  if (Math.floor(last.day) - Math.floor(first.day) < WEEK_DAYS) return tooFew;
  const values = points.map(({ value }) => value);
  const line = theilSen(
    points.map(({ day }) => day - first.day),
    values,
  );
  const days = [first.day, last.day] as const;
  if (line === undefined) {
    // All of one value: there is no slope to doubt.
    return {
      kind: 'known',
      change: 'none',
      days,
      from: values[0],
      to: values[0],
      perWeek: 0,
      interval: [0, 0],
      points: points.length,
    };
  }
  const { slope, intercept, interval } = line;
  return {
    kind: 'known',
    change: interval[0] > 0 ? 'up' : interval[1] < 0 ? 'down' : 'none',
    days,
    from: intercept,
    to: intercept + slope * (last.day - first.day),
    perWeek: slope * WEEK_DAYS,
    interval: [interval[0] * WEEK_DAYS, interval[1] * WEEK_DAYS],
    points: points.length,
  };
}
