import { distributionOf, median, normalQuantile } from './statistics';

/** A straight line through points that a few far ones don't bend. */
interface RobustLine {
  /** In units of y for each unit of x. */
  readonly slope: number;
  /** Where the line stands at x = 0: median y less slope times median x. */
  readonly intercept: number;
  /** Of the slope. */
  readonly interval: readonly [low: number, high: number];
  readonly n: number;
}

/**
 * Theil and Sen's line: the median of the slopes between all pairs of points whose x differ, with Sen's (1968)
 * interval from Kendall's statistic, ties counted off. As `scipy.stats.theilslopes`, which it is checked against.
 * @param level of the interval
 * @returns undefined of fewer than three points, where all x are the same, and where no interval can be given
 * @example theilSen([0, 1, 2, 3], [0, 2, 4, 60])?.slope // => 11
 */
export function theilSen(x: readonly number[], y: readonly number[], level = 0.9): RobustLine | undefined {
  const n = Math.min(x.length, y.length);
  if (n < 3) return undefined;
  const slopes: number[] = [];
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) if (x[i] > x[j]) slopes.push((y[i] - y[j]) / (x[i] - x[j]));
  }
  if (slopes.length === 0) return undefined;
  slopes.sort((a, b) => a - b);
  const variance = (tied(n) - sumOfTied(x) - sumOfTied(y)) / 18;
  if (!(variance > 0)) return undefined;
  const reach = normalQuantile((1 + level) / 2) * Math.sqrt(variance);
  const low = Math.max(halfToEven((slopes.length - reach) / 2) - 1, 0);
  const high = Math.min(halfToEven((slopes.length + reach) / 2), slopes.length - 1);
  const slope = middle(slopes);
  return { slope, intercept: middle(y) - slope * middle(x), interval: [slopes[low], slopes[high]], n };
}

const tied = (k: number): number => k * (k - 1) * (2 * k + 5);

function sumOfTied(values: readonly number[]): number {
  return distributionOf(values).counts.reduce((sum, count) => sum + tied(count), 0);
}

function middle(values: readonly number[]): number {
  return median(distributionOf(values)) ?? 0;
}

/** Nearest whole number, halves to the even one, as numpy rounds. */
function halfToEven(value: number): number {
  const below = Math.floor(value);
  if (value - below !== 0.5) return Math.round(value);
  return below % 2 === 0 ? below : below + 1;
}
