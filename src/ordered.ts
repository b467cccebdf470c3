/**
 * How many things of a list come before the first that doesn't pass, found by halving: those that pass stand before those
 * that don't.
 * @example countWhile(4, (index) => [1, 2, 5, 9][index] < 5) // => 2
 */
export function countWhile(count: number, passes: (index: number) => boolean): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (passes(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * The mean, with a second pass for what rounding left of the first.
 * @returns `undefined` of nothing
 * @example mean([1, 2, 6]) // => 3
 */
export function mean(values: ArrayLike<number>): number | undefined {
  const n = values.length;
  if (n === 0) return undefined;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i];
  const rough = sum / n;
  let left = 0;
  for (let i = 0; i < n; i++) left += values[i] - rough;
  return rough + left / n;
}

/**
 * The middle of numbers in order, or the mean of the two middle ones.
 * @returns `undefined` of none
 * @example middleOf([1, 2, 3, 10]) // => 2.5
 */
export function middleOf(ordered: ArrayLike<number>): number | undefined {
  const half = ordered.length >> 1;
  if (ordered.length === 0) return undefined;
  return ordered.length % 2 === 1 ? ordered[half] : (ordered[half - 1] + ordered[half]) / 2;
}

/**
 * The median of numbers in any order, which stay as they are.
 * @returns `undefined` of none
 * @example median([3, 1, 2]) // => 2
 */
export function median(values: ArrayLike<number>): number | undefined {
  return medianInPlace(new Float64Array(values));
}

/**
 * Median by selection: the middle value, or the mean of the two middle ones. Linear in `count`.
 * The first `count` values of `values` are put in another order.
 * @returns `undefined` when `count` is 0
 * @example medianInPlace(Float64Array.of(3, 1, 2)) // => 2
 * @example medianInPlace(Float64Array.of(4, 1, 2, 3)) // => 2.5
 */
export function medianInPlace(values: Float64Array, count: number = values.length): number | undefined {
  if (count === 0) return undefined;
  const middle = count >> 1;
  const upper = select(values, count, middle);
  if (count % 2 === 1) return upper;
  let lower = values[0];
  for (let i = 1; i < middle; i++) if (values[i] > lower) lower = values[i];
  return (lower + upper) / 2;
}

/**
 * Median absolute deviation from the median, times 1.4826 (the factor that makes it the standard deviation of a
 * normal distribution; common practice). `values` is overwritten.
 * @returns `undefined` when `count` is 0
 * @example scaledMadInPlace(Float64Array.of(1, 2, 3, 4, 100)) // => 1.4826
 */
export function scaledMadInPlace(values: Float64Array, count: number = values.length): number | undefined {
  const middle = medianInPlace(values, count);
  if (middle === undefined) return undefined;
  for (let i = 0; i < count; i++) values[i] = Math.abs(values[i] - middle);
  const mad = medianInPlace(values, count);
  return mad === undefined ? undefined : MAD_TO_SD * mad;
}

export const MAD_TO_SD = 1.4826;

/**
 * The `k`-th smallest (from 0) of the first `count` values, by Hoare's selection; afterwards the values before `k` are
 * not above it and those behind not below it.
 */
export function select(values: Float64Array, count: number, k: number): number {
  let left = 0;
  let right = count - 1;
  while (left < right) {
    const pivot = medianOfThree(values[left], values[(left + right) >> 1], values[right]);
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i <= j) {
        const swap = values[i];
        values[i] = values[j];
        values[j] = swap;
        i++;
        j--;
      }
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  return values[k];
}

function medianOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
