/**
 * Median of |value| where each value stands for `counts` observations, without sorting: a fit asks for it at every
 * step. Call once with the counts, then with each new set of values, as many as there are counts.
 * @example weightedMedian(Float64Array.of(1, 3))(Float64Array.of(-5, 2)) // => 2
 */
export function weightedMedian(counts: Float64Array): (values: Float64Array) => number {
  const n = counts.reduce((sum, count) => sum + count, 0);
  const size = new Float64Array(counts.length);
  const weight = new Float64Array(counts.length);
  return (values) => {
    for (let i = 0; i < size.length; i++) size[i] = Math.abs(values[i]);
    weight.set(counts);
    const lower = select(size, weight, Math.ceil(n / 2));
    if (n % 2 === 1) return lower;
    return (lower + select(size, weight, n / 2 + 1)) / 2;
  };
}

/** The rank-th smallest, ranks from 1, by parting both arrays around a middle value again and again. */
function select(values: Float64Array, weights: Float64Array, rank: number): number {
  let from = 0;
  let to = values.length - 1;
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
