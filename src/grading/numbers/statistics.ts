import { square } from '../../exact';
import { InputError } from '../../errors';
import { mean, MAD_TO_SD } from '../../ordered';

export { betaQuantile, normalQuantile, NORMAL_95, studentQuantile } from './quantiles';

/**
 * Values with how often each came. Levels take at most 127 values a surface, so an hour of strokes is a short list,
 * and groups are joined by joining lists.
 */
export interface Distribution {
  /** Ascending and distinct. */
  readonly values: readonly number[];
  /** How often each value came, at least once. */
  readonly counts: readonly number[];
  /** Sum of the counts. */
  readonly n: number;
}

/**
 * Counts values.
 * @throws InputError where a value is not a finite number
 * @example distributionOf([3, 1, 3]) // => { values: [1, 3], counts: [1, 2], n: 3 }
 */
export function distributionOf(values: Iterable<number>): Distribution {
  const counted = new Map<number, number>();
  let n = 0;
  for (const value of values) {
    if (!Number.isFinite(value)) throw new InputError(`values[${n}]`, 'must be a finite number', value);
    counted.set(value, (counted.get(value) ?? 0) + 1);
    n++;
  }
  return fromCounts(counted, n);
}

/**
 * All of several groups as one.
 * @example merged([distributionOf([1, 2]), distributionOf([2])]) // => { values: [1, 2], counts: [1, 2], n: 3 }
 */
export function merged(parts: readonly Distribution[]): Distribution {
  if (parts.length === 1) return parts[0];
  const counted = new Map<number, number>();
  let n = 0;
  for (const part of parts) {
    part.values.forEach((value, i) => {
      counted.set(value, (counted.get(value) ?? 0) + part.counts[i]);
    });
    n += part.n;
  }
  return fromCounts(counted, n);
}

/**
 * The middle value; for an even count the mean of the middle two.
 * @returns `undefined` of nothing
 * @example median(distributionOf([1, 2, 4, 8])) // => 3
 */
export function median(d: Distribution): number | undefined {
  if (d.n === 0) return undefined;
  const lower = valueAt(d, Math.ceil(d.n / 2));
  return d.n % 2 === 1 ? lower : (lower + valueAt(d, d.n / 2 + 1)) / 2;
}

/**
 * Robust spread: 1.4826 times the median absolute deviation from the median, which is the standard deviation where
 * the values are normal.
 * @returns `undefined` of nothing
 * @example madSpread(distributionOf([1, 2, 3, 4, 100])) // => 1.4826
 */
export function madSpread(d: Distribution): number | undefined {
  const deviations = absoluteDeviations(d);
  const middle = deviations && median(deviations);
  return middle === undefined ? undefined : MAD_TO_SD * middle;
}

/** |value - median| of every value. `undefined` of nothing. */
export function absoluteDeviations(d: Distribution): Distribution | undefined {
  const middle = median(d);
  if (middle === undefined) return undefined;
  const counted = new Map<number, number>();
  d.values.forEach((value, i) => {
    const away = Math.abs(value - middle);
    counted.set(away, (counted.get(away) ?? 0) + d.counts[i]);
  });
  return fromCounts(counted, d.n);
}

/**
 * Sum of squared deviations from the mean, in two passes: numbers with a large common offset keep their digits (NIST's
 * NumAcc4). Of nothing it is 0.
 */
export function squaredDeviations(values: ArrayLike<number>): number {
  const n = values.length;
  const middle = mean(values) ?? 0;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += square(values[i] - middle);
  return sum;
}

/**
 * Standard deviation of a sample, divided by n - 1.
 * @returns `undefined` of fewer than two
 * @example sampleSd([1, 3]) // => 1.4142135623730951
 */
export function sampleSd(values: ArrayLike<number>): number | undefined {
  return values.length < 2 ? undefined : Math.sqrt(squaredDeviations(values) / (values.length - 1));
}

/**
 * Autocorrelation of neighbours: Σ(yᵢ - m)(yᵢ₊₁ - m) / Σ(yᵢ - m)², as NIST certifies it.
 * @returns `undefined` of fewer than two, or where all are equal
 * @example lag1([10000001, 10000003, 10000002]) // => -0.5
 */
export function lag1(values: ArrayLike<number>): number | undefined {
  const middle = mean(values);
  if (middle === undefined || values.length < 2) return undefined;
  let products = 0;
  let squares = square(values[0] - middle);
  for (let i = 1; i < values.length; i++) {
    products += (values[i - 1] - middle) * (values[i] - middle);
    squares += square(values[i] - middle);
  }
  return squares === 0 ? undefined : products / squares;
}

/** The rank-th smallest value, ranks from 1 to n. */
function valueAt(d: Distribution, rank: number): number {
  let seen = 0;
  let i = 0;
  while ((seen += d.counts[i]) < rank) i++;
  return d.values[i];
}

function fromCounts(counted: ReadonlyMap<number, number>, n: number): Distribution {
  const values = [...counted.keys()].sort((a, b) => a - b);
  return { values, counts: values.map((value) => counted.get(value) ?? 0), n };
}
