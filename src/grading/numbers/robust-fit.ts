import { square } from '../../exact';
import { symmetricInverse } from './row-space';
import { weightedMedian } from './weighted-median';
import { MAD_TO_SD } from '../../ordered';

/**
 * Robust least squares over counted cells: all observations of one design row and one value are one cell, so the cost
 * of a step depends on the values there are and not on the strokes.
 */
export interface Cells {
  /** The distinct rows of the design, reduced to independent columns. */
  readonly rows: readonly (readonly number[] | Float64Array)[];
  /** For each cell its design row, its value (a level, a deviation), and how many observations it stands for. */
  readonly row: ArrayLike<number>;
  readonly value: Float64Array;
  readonly count: Float64Array;
  /** The scale of the residuals is never taken to be smaller, in the unit of the values. */
  readonly leastScale: number;
}

export interface RobustFit {
  readonly coefficients: Float64Array;
  /** (XᵀX)⁻¹, unweighted. */
  readonly inverse: readonly Float64Array[];
  /** By cell: value less fit, and its bisquare weight at the end. */
  readonly residuals: Float64Array;
  readonly weights: Float64Array;
  /** Σψ² with ψ = w·r, and the mean of ψ', at the end. */
  readonly squaredPsi: number;
  readonly meanSlope: number;
}

const HUBER_K = 1.345;
const BISQUARE_C = 4.685;
/** In the unit of the values. */
const STILL = 1e-9;
const MOST_STEPS = 200;

type Weight = (size: number) => number;

/** Huber's weight of a residual of `size` scales. */
const huber: Weight = (size) => (size <= HUBER_K ? 1 : HUBER_K / size);
/** Tukey's bisquare. */
const bisquare: Weight = (size) => (size >= BISQUARE_C ? 0 : square(1 - square(size / BISQUARE_C)));
const equal: Weight = () => 1;

/**
 * Plain least squares, from there Huber's weights until nothing moves, from there Tukey's bisquare until nothing
 * moves; the scale is 1.4826·median |residual|, at least `leastScale`, renewed at each step.
 * Source: Holland & Welsch 1977 (constants); grading.md section 5 (order and scale).
 */
export function robustFit(cells: Cells): RobustFit {
  const { rows, row, value, count } = cells;
  const coefficients = new Float64Array(rows[0].length);
  const residuals = new Float64Array(value.length);
  const longest = longestRow(rows);
  const fitted = new Float64Array(rows.length);
  const medianSize = weightedMedian(count);
  const renewedScale = (moved?: number): number => {
    for (let r = 0; r < rows.length; r++) fitted[r] = product(rows[r], coefficients);
    for (let i = 0; i < residuals.length; i++) residuals[i] = value[i] - fitted[row[i]];
    return Math.max(cells.leastScale, MAD_TO_SD * medianSize(residuals, moved));
  };
  renewedScale();
  const { moved: far, inverse } = step(cells, coefficients, residuals, equal, 1);
  let moved = far;
  for (const weight of [huber, bisquare]) {
    for (let k = 0; k < MOST_STEPS; k++) {
      const scale = renewedScale(moved * longest);
      moved = step(cells, coefficients, residuals, weight, scale).moved;
      if (moved < STILL) break;
    }
  }
  const scale = renewedScale(moved * longest);
  return { coefficients, inverse, residuals, ...ending(count, residuals, scale) };
}

/** Adds to the coefficients what weighted least squares finds in the residuals. */
function step(
  { rows, row, count }: Cells,
  coefficients: Float64Array,
  residuals: Float64Array,
  weight: Weight,
  scale: number,
): { moved: number; inverse: readonly Float64Array[] } {
  const weights = new Float64Array(rows.length);
  const pulls = new Float64Array(rows.length);
  for (let i = 0; i < residuals.length; i++) {
    const w = count[i] * weight(Math.abs(residuals[i]) / scale);
    weights[row[i]] += w;
    pulls[row[i]] += w * residuals[i];
  }
  const columns = coefficients.length;
  const normal = Array.from({ length: columns }, () => new Float64Array(columns));
  const pull = new Float64Array(columns);
  for (let r = 0; r < rows.length; r++) {
    for (let a = 0; a < columns; a++) {
      pull[a] += pulls[r] * rows[r][a];
      for (let b = 0; b < columns; b++) normal[a][b] += weights[r] * rows[r][a] * rows[r][b];
    }
  }
  const inverse = symmetricInverse(normal);
  let moved = 0;
  for (let a = 0; a < columns; a++) {
    const move = product(inverse[a], pull);
    coefficients[a] += move;
    moved = Math.max(moved, Math.abs(move));
  }
  return { moved, inverse };
}

/** No residual moves by more than the farthest-moved coefficient times this: the largest sum of a row's sizes. */
function longestRow(rows: Cells['rows']): number {
  let longest = 0;
  for (const row of rows) {
    let sum = 0;
    for (const entry of row) sum += Math.abs(entry);
    longest = Math.max(longest, sum);
  }
  return longest;
}

/** Weights, Σψ² and the mean slope ψ' of the bisquare: (1 - u²)(1 - 5u²) inside, u = |r|/(c·scale); 0 outside. */
function ending(
  count: Float64Array,
  residuals: Float64Array,
  scale: number,
): Pick<RobustFit, 'weights' | 'squaredPsi' | 'meanSlope'> {
  const weights = new Float64Array(residuals.length);
  let squaredPsi = 0;
  let slope = 0;
  let n = 0;
  for (let i = 0; i < residuals.length; i++) {
    n += count[i];
    const u2 = square(residuals[i] / (BISQUARE_C * scale));
    if (u2 >= 1) continue;
    weights[i] = square(1 - u2);
    squaredPsi += count[i] * square(weights[i] * residuals[i]);
    slope += count[i] * (1 - u2) * (1 - 5 * u2);
  }
  return { weights, squaredPsi, meanSlope: slope / n };
}

function product(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
