/**
 * Median of |value| where each value stands for `counts` observations, without sorting: a fit asks for it at every
 * step. Call once with the counts, then with each new set of values, as many as there are counts.
 * `moved` promises that no value is farther than this from what it was at the last call; so the median isn't either,
 * and only the values near it are looked at.
 * @example weightedMedian(Float64Array.of(1, 3))(Float64Array.of(-5, 2)) // => 2
 */
export function weightedMedian(counts: Float64Array): (values: Float64Array, moved?: number) => number {
  const n = counts.reduce((sum, count) => sum + count, 0);
  const near: Near = {
    size: new Float64Array(counts.length),
    weight: new Float64Array(counts.length),
    length: 0,
  };
  let lower = 0;
  let upper = 0;
  return (values, moved = Infinity) => {
    const from = lower - moved - ROUNDING;
    const to = upper + moved + ROUNDING;
    let below = 0;
    near.length = 0;
    for (let i = 0; i < values.length; i++) {
      const size = Math.abs(values[i]);
      if (size < from) below += counts[i];
      else if (size <= to) {
        near.size[near.length] = size;
        near.weight[near.length++] = counts[i];
      }
    }
    lower = select(near, Math.ceil(n / 2) - below);
    upper = n % 2 === 1 ? lower : select(near, n / 2 + 1 - below);
    return (lower + upper) / 2;
  };
}

const ROUNDING = 1e-9;

/** The values in reach of the median, in the first `length` places. */
interface Near {
  readonly size: Float64Array;
  readonly weight: Float64Array;
  length: number;
}

/** The rank-th smallest, ranks from 1, by parting both arrays around a middle value again and again. */
function select({ size: values, weight: weights, length }: Near, rank: number): number {
  let from = 0;
  let to = length - 1;
  let wanted = rank;
  while (from < to) {
    const pivot = middleOfThree(values[from], values[(from + to) >> 1], values[to]);
    let below = 0;
    let same = 0;
    let start = from;
    let end = to;
    for (let i = from; i <= end;) {
      if (values[i] < pivot) {
        below += weights[i];
        swap(values, weights, i++, start++);
      } else if (values[i] > pivot) {
        swap(values, weights, i, end--);
      } else {
        same += weights[i++];
      }
    }
    if (wanted <= below) to = start - 1;
    else if (wanted <= below + same) return pivot;
    else {
      wanted -= below + same;
      from = end + 1;
    }
  }
  return values[from];
}

function middleOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

function swap(values: Float64Array, weights: Float64Array, i: number, j: number): void {
  const value = values[i];
  const weight = weights[i];
  values[i] = values[j];
  weights[i] = weights[j];
  values[j] = value;
  weights[j] = weight;
}
