import { columnOf } from '../../column';
import type { Ms } from '../../units';
import type { Estimate } from '../numbers/intervals';
import { clusteredCovariance, varianceOfSum } from '../numbers/clustered';
import { robustFit } from '../numbers/robust-fit';
import { studentQuantile } from '../numbers/statistics';
import { designOf } from './time-model/design';
import type { TimedBar, TimeModel, TimeRow } from './time-model/types';
import { median, mean } from '../../ordered';

export type { TimedBar, TimeModel, TimeRow } from './time-model/types';

const FEWEST_ROWS = 4;
const FEWEST_BARS = 4;
const LEAST_SCALE_MS = 1;
/** Share of the gap. */
const LEAST_SCALE = 0.004;
const HIGH = 0.95;

/**
 * Where strokes fall, by robust regression within bars: which hand is late (`lag`), where the off-beats lie (`feel`),
 * how late the second notes of doubles come (`second`), and what of it cannot be told apart. In each bar the mean is
 * taken off every column and the median off the deviations, so a bar that comes late as a whole bends nothing. Errors
 * of one bar may lean on each other: the covariance is clustered by bar, t with a bar less than there are. A bar of
 * under 4 rows is left out.
 * @param rows bar after bar
 * @returns `undefined` with fewer than 4 such bars
 * @example all strokes of the left hand 18 ms late in paradiddles: lag −18; the off-beats 30 ms late too: feel +30
 */
export function timeModel(rows: readonly TimeRow[]): TimeModel | undefined {
  const { kept, barOf, starts } = barsOf(rows);
  if (starts.length <= FEWEST_BARS) return undefined;
  const used = kept.map((index) => rows[index]);
  const design = designOf(used);
  const deviations = lessMedian(used, starts);
  if (design === undefined) return inestimable(rows, kept, deviations, used, starts);

  const gapMs = used.reduce((sum, row) => sum + row.gapMs, 0) / used.length;
  const fit = robustFit({
    rows: design.rows,
    row: design.row,
    value: deviations,
    count: new Float64Array(used.length).fill(1),
    leastScale: Math.max(LEAST_SCALE_MS, LEAST_SCALE * gapMs),
  });
  const bars = starts.length - 1;
  const covariance = clusteredCovariance(design, fit, barOf, bars);
  const reach = studentQuantile(HIGH, bars - 1);
  const estimate = (sum: Float64Array | null): Estimate | null => {
    if (sum === null || covariance === undefined) return null;
    const value = product(sum, fit.coefficients);
    const half = reach * Math.sqrt(varianceOfSum(covariance, sum));
    return { value, interval: [value - half, value + half] };
  };
  const terms = { lag: estimate(design.lag), feel: estimate(design.feel), second: estimate(design.second) };
  const lessTerms = columnOf(
    used.length,
    (i) => used[i].deviationMs - product(design.raw[i], fit.coefficients),
  );
  return {
    ...terms,
    notToldApart: design.notToldApart,
    residuals: spread(rows.length, kept, fit.residuals),
    bars: timedBars(used, starts, lessTerms, fit.weights, fit.residuals, terms),
  };
}

/** Nothing differs within bars (one hand, quarter notes): bars have means, and no term. */
function inestimable(
  rows: readonly TimeRow[],
  kept: readonly number[],
  deviations: Float64Array,
  used: readonly TimeRow[],
  starts: readonly number[],
): TimeModel {
  const terms = { lag: null, feel: null, second: null };
  const equal = new Float64Array(used.length).fill(1);
  const raw = columnOf(used.length, (i) => used[i].deviationMs);
  return {
    ...terms,
    notToldApart: [],
    residuals: spread(rows.length, kept, deviations),
    bars: timedBars(used, starts, raw, equal, deviations, terms),
  };
}

/** Bars with enough rows: the rows kept, the number of each one's bar, and where bars start (one more: the end). */
function barsOf(rows: readonly TimeRow[]): {
  readonly kept: readonly number[];
  readonly barOf: Uint32Array;
  readonly starts: readonly number[];
} {
  const kept: number[] = [];
  const barOf: number[] = [];
  const starts = [0];
  for (let from = 0, to = 0; from < rows.length; from = to) {
    while (to < rows.length && rows[to].bar === rows[from].bar) to++;
    if (to - from < FEWEST_ROWS) continue;
    for (let i = from; i < to; i++) {
      kept.push(i);
      barOf.push(starts.length - 1);
    }
    starts.push(kept.length);
  }
  return { kept, barOf: Uint32Array.from(barOf), starts };
}

function lessMedian(rows: readonly TimeRow[], starts: readonly number[]): Float64Array {
  const less = columnOf(rows.length, (i) => rows[i].deviationMs);
  for (let b = 0; b + 1 < starts.length; b++) {
    const ofBar = less.subarray(starts[b], starts[b + 1]);
    const middle = median(ofBar) ?? 0;
    for (let i = 0; i < ofBar.length; i++) ofBar[i] -= middle;
  }
  return less;
}

function timedBars(
  rows: readonly TimeRow[],
  starts: readonly number[],
  lessTerms: Float64Array,
  weights: Float64Array,
  residuals: Float64Array,
  terms: Pick<TimeModel, 'lag' | 'second'>,
): TimedBar[] {
  return starts.slice(0, -1).map((from, b): TimedBar => {
    const to = starts[b + 1];
    const { bar, cycle, variation } = rows[from];
    let [weight, sum] = [0, 0];
    for (let i = from; i < to; i++) {
      weight += weights[i];
      sum += weights[i] * lessTerms[i];
    }
    const beyond = (is: (row: TimeRow) => boolean): Side => side(rows, residuals, from, to, is);
    const [hands, doubles] = [beyond((row) => row.hand === 'R'), beyond((row) => row.second)];
    return {
      bar,
      cycle,
      variation,
      // A bar without weight is all outliers: then its plain mean.
      meanMs: weight > 0 ? sum / weight : (mean(lessTerms.subarray(from, to)) ?? 0),
      lagMs: added(terms.lag, hands),
      secondMs: added(terms.second, doubles),
      lagStrokes: hands.strokes,
      secondStrokes: doubles.strokes,
    };
  });
}

interface Side {
  readonly ms: Ms | undefined;
  readonly strokes: number;
}

/** Mean residual of the rows that are, less that of those that are not. */
function side(
  rows: readonly TimeRow[],
  residuals: Float64Array,
  from: number,
  to: number,
  is: (row: TimeRow) => boolean,
): Side {
  let [sum, count, otherSum] = [0, 0, 0];
  for (let i = from; i < to; i++) {
    if (is(rows[i])) {
      sum += residuals[i];
      count++;
    } else otherSum += residuals[i];
  }
  const others = to - from - count;
  const ms = count === 0 || others === 0 ? undefined : sum / count - otherSum / others;
  return { ms, strokes: Math.min(count, others) };
}

function added(term: Estimate | null, { ms }: Side): Ms | undefined {
  return term === null || ms === undefined ? undefined : term.value + ms;
}

function spread(length: number, kept: readonly number[], values: Float64Array): Float64Array {
  const all = new Float64Array(length).fill(NaN);
  kept.forEach((index, i) => (all[index] = values[i]));
  return all;
}

function product(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
