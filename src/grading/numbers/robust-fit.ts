import { MAD_TO_SD } from '../statistics';
import { symmetricInverse } from './row-space';
import { weightedMedian } from './weighted-median';

/**
 * Robust least squares over counted cells: all observations of one design row and one level are one cell, so the cost
 * of a step depends on the levels there are and not on the strokes.
 */
export interface Cells {
  /** The distinct rows of the design, reduced to independent columns. */
  readonly rows: readonly (readonly number[])[];
  /** For each cell its design row, its level, and how many observations it stands for. */
  readonly row: Uint8Array;
  readonly level: Float64Array;
  readonly count: Float64Array;
}

export interface RobustFit {
  readonly coefficients: Float64Array;
  /** (XᵀX)⁻¹, unweighted. */
  readonly inverse: readonly (readonly number[])[];
  /** Σψ² with ψ = w·r, and the mean of ψ', at the end. */
  readonly squaredPsi: number;
  readonly meanSlope: number;
}

const HUBER_K = 1.345;
const BISQUARE_C = 4.685;
const SMALLEST_SCALE_DB = 0.5;
const STILL_DB = 1e-9;
const MOST_STEPS = 200;

type Weight = (size: number) => number;

/** Huber's weight of a residual of `size` scales. */
const huber: Weight = (size) => (size <= HUBER_K ? 1 : HUBER_K / size);
/** Tukey's bisquare. */
const bisquare: Weight = (size) => (size >= BISQUARE_C ? 0 : (1 - (size / BISQUARE_C) ** 2) ** 2);
const equal: Weight = () => 1;

/**
 * Plain least squares, from there Huber's weights until nothing moves, from there Tukey's bisquare until nothing
 * moves; the scale is 1.4826·median |residual|, at least 0.5 dB, renewed at each step.
 * Source: Holland & Welsch 1977 (constants); grading.md section 5 (order and scale).
 */
export function robustFit(cells: Cells): RobustFit {
  const n = cells.count.reduce((sum, count) => sum + count, 0);
  const coefficients = new Float64Array(cells.rows[0].length);
  const residuals = new Float64Array(cells.level.length);
  const scratch = weightedMedian(cells.count);
  const renewed = (): number => {
    const fitted = cells.rows.map((row) => row.reduce((sum, entry, c) => sum + entry * coefficients[c], 0));
    for (let i = 0; i < residuals.length; i++) residuals[i] = cells.level[i] - fitted[cells.row[i]];
    return Math.max(SMALLEST_SCALE_DB, MAD_TO_SD * scratch(residuals));
  };
  renewed();
  const { inverse } = step(cells, coefficients, residuals, equal, 1);
  for (const weight of [huber, bisquare]) {
    for (let k = 0; k < MOST_STEPS; k++) {
      const scale = renewed();
      if (step(cells, coefficients, residuals, weight, scale).moved < STILL_DB) break;
    }
  }
  return { coefficients, inverse, ...slopes(cells, residuals, renewed(), n) };
}

/** Adds to the coefficients what weighted least squares finds in the residuals. */
function step(
  { rows, row, count }: Cells,
  coefficients: Float64Array,
  residuals: Float64Array,
  weight: Weight,
  scale: number,
): { moved: number; inverse: number[][] } {
  const weights = new Float64Array(rows.length);
  const pulls = new Float64Array(rows.length);
  for (let i = 0; i < residuals.length; i++) {
    const w = count[i] * weight(Math.abs(residuals[i]) / scale);
    weights[row[i]] += w;
    pulls[row[i]] += w * residuals[i];
  }
  const columns = Array.from(coefficients.keys());
  const sum = (of: Float64Array, a: number, b?: number): number =>
    rows.reduce((total, entries, r) => total + of[r] * entries[a] * (b === undefined ? 1 : entries[b]), 0);
  const inverse = symmetricInverse(columns.map((a) => columns.map((b) => sum(weights, a, b))));
  const pull = columns.map((a) => sum(pulls, a));
  let moved = 0;
  for (const a of columns) {
    const move = columns.reduce((total, b) => total + inverse[a][b] * pull[b], 0);
    coefficients[a] += move;
    moved = Math.max(moved, Math.abs(move));
  }
  return { moved, inverse };
}

/** Σψ² and the mean slope ψ' of the bisquare: (1 - u²)(1 - 5u²) inside, u = |r|/(c·scale); 0 outside. */
function slopes(
  { count }: Cells,
  residuals: Float64Array,
  scale: number,
  n: number,
): Pick<RobustFit, 'squaredPsi' | 'meanSlope'> {
  let squaredPsi = 0;
  let slope = 0;
  for (let i = 0; i < residuals.length; i++) {
    const u2 = (residuals[i] / (BISQUARE_C * scale)) ** 2;
    if (u2 >= 1) continue;
    squaredPsi += count[i] * ((1 - u2) ** 2 * residuals[i]) ** 2;
    slope += count[i] * (1 - u2) * (1 - 5 * u2);
  }
  return { squaredPsi, meanSlope: slope / n };
}
