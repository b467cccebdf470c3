import { exp, square } from '../../exact';
import { differenceReach, medianReach, resampledMedian } from './bootstrap-median';
import {
  absoluteDeviations,
  betaQuantile,
  median,
  NORMAL_95,
  squaredDeviations,
  studentQuantile,
  type Distribution,
} from './statistics';
import { MAD_TO_SD, mean } from '../../ordered';

/**
 * A value with its 90 % interval, both in the unit of what went in. Every interval is in closed form (grading.md
 * section 5): the same strokes give the same ends. `undefined` always means that there are too few values for one.
 */
export interface Estimate {
  readonly value: number;
  readonly interval: readonly [low: number, high: number];
}

const LOW = 0.05;
const HIGH = 0.95;
/** What the interval of a standard deviation reaches on either side, in standard errors, as grading.md writes it. */
const SD_REACH = 1.645;

/**
 * Median, with the 5 % and 95 % points of the exact bootstrap distribution of the sample median.
 * @example medianEstimate({ values: [-20, -19, -18], counts: [1, 1, 1], n: 3 })
 * // => { value: -19, interval: [-20, -18] }
 */
export function medianEstimate(d: Distribution): Estimate | undefined {
  const value = median(d);
  return value === undefined ? undefined : { value, interval: medianReach(d, LOW, HIGH) };
}

/** Median of a minus median of b, their bootstrap distributions convolved. Positive: a is higher. */
export function medianDifference(a: Distribution, b: Distribution): Estimate | undefined {
  const [of, less] = [median(a), median(b)];
  if (of === undefined || less === undefined) return undefined;
  const [medianOfA, medianOfB] = [resampledMedian(a), resampledMedian(b)];
  return {
    value: of - less,
    interval: [differenceReach(medianOfA, medianOfB, LOW), differenceReach(medianOfA, medianOfB, HIGH)],
  };
}

/** 1.4826·MAD, with the interval of the median of the absolute deviations. */
export function spreadEstimate(d: Distribution): Estimate | undefined {
  const deviations = absoluteDeviations(d);
  const middle = deviations && medianEstimate(deviations);
  if (middle === undefined) return undefined;
  return {
    value: MAD_TO_SD * middle.value,
    interval: [MAD_TO_SD * middle.interval[0], MAD_TO_SD * middle.interval[1]],
  };
}

/**
 * Probability that an accent is louder than a soft stroke, ties half: the area under the ROC curve. Interval: DeLong,
 * DeLong & Clarke-Pearson 1988, cut to 0–1. Where no soft stroke reaches an accent that interval has no width.
 * @returns `undefined` with fewer than two of either
 */
export function clarityEstimate(accents: Distribution, softs: Distribution): Estimate | undefined {
  if (accents.n < 2 || softs.n < 2) return undefined;
  const below = sharesBelow(accents, softs);
  const above = sharesBelow(softs, accents).map((share) => 1 - share);
  const value = weightedMean(below, accents);
  const error = Math.sqrt(
    weightedVariance(below, accents) / accents.n + weightedVariance(above, softs) / softs.n,
  );
  return {
    value,
    interval: [Math.max(0, value - NORMAL_95 * error), Math.min(1, value + NORMAL_95 * error)],
  };
}

/** Mean, with Student's t interval. @returns `undefined` of fewer than two */
export function meanEstimate(values: ArrayLike<number>): Estimate | undefined {
  const n = values.length;
  const value = mean(values);
  if (value === undefined || n < 2) return undefined;
  const error = Math.sqrt(squaredDeviations(values) / (n - 1) / n);
  return around(value, studentQuantile(HIGH, n - 1) * error);
}

/**
 * Mean of a minus mean of b, spreads not taken to be equal: Welch's t with Satterthwaite's degrees of freedom.
 * @param high share below the upper end: 0.95 makes a 90 % interval
 * @returns `undefined` with fewer than two of either
 */
export function welchDifference(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  high = HIGH,
): Estimate | undefined {
  const [meanOfA, meanOfB] = [mean(a), mean(b)];
  if (meanOfA === undefined || meanOfB === undefined || a.length < 2 || b.length < 2) return undefined;
  const errorOfA = squaredDeviations(a) / (a.length - 1) / a.length;
  const errorOfB = squaredDeviations(b) / (b.length - 1) / b.length;
  const squared = errorOfA + errorOfB;
  const value = meanOfA - meanOfB;
  if (squared === 0) return { value, interval: [value, value] };
  const [shareOfA, shareOfB] = [errorOfA / squared, errorOfB / squared];
  const df = 1 / (square(shareOfA) / (a.length - 1) + square(shareOfB) / (b.length - 1));
  return around(value, studentQuantile(high, df) * Math.sqrt(squared));
}

/**
 * Standard deviation about each group's own mean, pooled: √(Σr²/ν), ν = n - groups. Interval
 * s·exp(±1.645·√(max((k - 1)/(4n), 1/(2ν))·D)), k the kurtosis of the residuals (normal 3). Groups of one say nothing
 * about spread and are left out.
 * @param drift D: how much more the squared error is because residuals lean on each other (`numbers/drift-factor.ts`)
 * @returns `undefined` where no group has two
 */
export function pooledSd(groups: readonly ArrayLike<number>[], drift = 1): Estimate | undefined {
  let n = 0;
  let df = 0;
  let squares = 0;
  let fourths = 0;
  for (const group of groups) {
    const middle = mean(group);
    if (middle === undefined || group.length < 2) continue;
    n += group.length;
    df += group.length - 1;
    squares += squaredDeviations(group);
    for (let i = 0, size = group.length; i < size; i++) fourths += square(square(group[i] - middle));
  }
  if (df === 0) return undefined;
  const value = Math.sqrt(squares / df);
  const kurtosis = squares === 0 ? 3 : (n * fourths) / square(squares);
  const factor = exp(SD_REACH * Math.sqrt(drift * Math.max((kurtosis - 1) / (4 * n), 1 / (2 * df))));
  return { value, interval: [value / factor, value * factor] };
}

/**
 * A share, with the exact binomial interval of Clopper & Pearson 1934.
 * @returns `undefined` of nothing
 * @example proportionEstimate(10, 10) // => { value: 1, interval: [0.7411, 1] }
 */
export function proportionEstimate(successes: number, n: number): Estimate | undefined {
  if (n === 0) return undefined;
  return {
    value: successes / n,
    interval: [
      successes === 0 ? 0 : betaQuantile(LOW, successes, n - successes + 1),
      successes === n ? 1 : betaQuantile(HIGH, successes + 1, n - successes),
    ],
  };
}

function around(value: number, reach: number): Estimate {
  return { value, interval: [value - reach, value + reach] };
}

/** For each value of `of`: the share of `among` below it, ties half. */
function sharesBelow(of: Distribution, among: Distribution): number[] {
  let j = 0;
  let below = 0;
  return of.values.map((value) => {
    while (j < among.values.length && among.values[j] < value) below += among.counts[j++];
    const tied = among.values[j] === value ? among.counts[j] : 0;
    return (below + tied / 2) / among.n;
  });
}

function weightedMean(values: readonly number[], { counts, n }: Distribution): number {
  return values.reduce((sum, value, i) => sum + value * counts[i], 0) / n;
}

function weightedVariance(values: readonly number[], weights: Distribution): number {
  const middle = weightedMean(values, weights);
  const squares = values.reduce((sum, value, i) => sum + weights.counts[i] * square(value - middle), 0);
  return squares / (weights.n - 1);
}
