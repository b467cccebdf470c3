import { InputError } from '../errors';
import { meanEstimate, type Estimate } from './intervals';
import { robustFit, type Cells } from './numbers/robust-fit';
import { rowSpace } from './numbers/row-space';
import { studentQuantile } from './statistics';

/**
 * What a hand's soft stroke owes to its surroundings, in dB: `rest` its level away from any accent; `after` and
 * `before` its own accent; `spill` beside the other hand's accent; `second` as second note of a double of one kind.
 */
export type Term = 'rest' | 'after' | 'before' | 'spill' | 'second';

/** One soft stroke: its level and what surrounds it in the phrase. */
export interface SoftRow {
  readonly levelDb: number;
  readonly after: boolean;
  readonly before: boolean;
  readonly spill: boolean;
  readonly second: boolean;
}

export interface SoftFit {
  /** In dB with 90 % interval; null: not measured, because the strokes played cannot tell it from the others. */
  readonly terms: Readonly<Record<Term, Estimate | null>>;
  /** Row by row the level less the whole model, in dB. Positive is louder than the model. */
  readonly residuals: Float64Array;
  readonly n: number;
}

const terms = ['rest', 'after', 'before', 'spill', 'second'] as const satisfies readonly Term[];
const flags = ['after', 'before', 'spill', 'second'] as const satisfies readonly Term[];
const MASKS = 2 ** flags.length;
const HIGH = 0.95;

/**
 * Fits `level = rest + after + before + spill + second` to one hand's soft strokes by robust least squares, so that a
 * fault in one variation stands out there instead of bending the whole. Intervals: t × the root of the diagonal of
 * [Σψ²/(n - p)]/[mean ψ']²·(XᵀX)⁻¹ (Huber's H1 covariance without its small-sample factor); p is the rank of the
 * design, which is the terms measured wherever all are.
 * @returns `undefined` where there are no more strokes than the model has independent terms
 * @throws InputError where a level is not a finite number
 */
export function softFit(rows: readonly SoftRow[]): SoftFit | undefined {
  const masks = Uint8Array.from(rows, maskOf);
  const present = Array.from({ length: MASKS }, (_, mask) => mask).filter((mask) => masks.includes(mask));
  const design = present.map((mask) => [1, ...flags.map((_, bit) => (mask >> bit) & 1)]);
  const { pivots, told } = rowSpace(design, terms.length);
  const df = rows.length - pivots.length;
  if (df < 1) return undefined;

  const reduced = design.map((row) => pivots.map((column) => row[column]));
  const fit = robustFit(cellsOf(rows, masks, present, reduced));
  const variance = fit.squaredPsi / df / fit.meanSlope ** 2;
  const reach = studentQuantile(HIGH, df) * Math.sqrt(variance);
  const estimate = (column: number): Estimate | null => {
    const k = pivots.indexOf(column);
    if (!told[column]) return null;
    const value = fit.coefficients[k];
    const half = reach * Math.sqrt(fit.inverse[k][k]);
    return { value, interval: [value - half, value + half] };
  };
  const [rest, after, before, spill, second] = terms.map((_, column) => estimate(column));
  const fitted = new Float64Array(MASKS);
  present.forEach((mask, r) => {
    fitted[mask] = reduced[r].reduce((sum, entry, k) => sum + entry * fit.coefficients[k], 0);
  });
  return {
    terms: { rest, after, before, spill, second },
    residuals: Float64Array.from(rows, (row, i) => row.levelDb - fitted[masks[i]]),
    n: rows.length,
  };
}

/**
 * A term as some of the strokes have it, say those of one variation: the mean, with t interval, of their levels less
 * the model without that term, in dB. `which` are indices into the rows of the fit, usually those that carry the term.
 * @returns `undefined` where the term is not measured or `which` has fewer than two
 */
export function partialMean(
  fit: SoftFit,
  rows: readonly SoftRow[],
  term: Exclude<Term, 'rest'>,
  which: ArrayLike<number>,
): Estimate | undefined {
  const estimate = fit.terms[term];
  if (estimate === null) return undefined;
  const partial = Float64Array.from(which, (i) => fit.residuals[i] + (rows[i][term] ? estimate.value : 0));
  return meanEstimate(partial);
}

function maskOf(row: SoftRow): number {
  return (row.after ? 1 : 0) | (row.before ? 2 : 0) | (row.spill ? 4 : 0) | (row.second ? 8 : 0);
}

/** Rows of one design row and level as one cell, in order of first appearance. */
function cellsOf(
  rows: readonly SoftRow[],
  masks: Uint8Array,
  present: readonly number[],
  reduced: readonly (readonly number[])[],
): Cells {
  const rowOfMask = new Uint8Array(MASKS);
  present.forEach((mask, r) => (rowOfMask[mask] = r));
  const cellsByMask = Array.from({ length: MASKS }, () => new Map<number, number>());
  const row: number[] = [];
  const level: number[] = [];
  const count: number[] = [];
  rows.forEach(({ levelDb }, i) => {
    if (!Number.isFinite(levelDb))
      throw new InputError(`rows[${i}].levelDb`, 'must be a finite number', levelDb);
    const cells = cellsByMask[masks[i]];
    const cell = cells.get(levelDb);
    if (cell !== undefined) count[cell]++;
    else {
      cells.set(levelDb, count.length);
      row.push(rowOfMask[masks[i]]);
      level.push(levelDb);
      count.push(1);
    }
  });
  return {
    rows: reduced,
    row: Uint8Array.from(row),
    level: Float64Array.from(level),
    count: Float64Array.from(count),
  };
}
