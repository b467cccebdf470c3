import { columnOf } from '../../column';
import { square } from '../../exact';
import { InputError } from '../../errors';
import { meanEstimate, type Estimate } from '../numbers/intervals';
import { robustFit, type Cells } from '../numbers/robust-fit';
import { rowSpace } from '../numbers/row-space';
import { studentQuantile } from '../numbers/statistics';

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
/** The terms a stroke may carry, in the order of the bits of {@link maskOf}. */
export const TERM_FLAGS = ['after', 'before', 'spill', 'second'] as const satisfies readonly Term[];
/** The scale of the residuals is never taken to be smaller: no pad tells levels finer. */
export const LEAST_SCALE_DB = 0.5;
const MASKS = 2 ** TERM_FLAGS.length;
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
  const { cells, masks, designRow } = counted(rows);
  const design = masks.map((mask) => [1, ...TERM_FLAGS.map((_, bit) => (mask >> bit) & 1)]);
  const { pivots, estimable } = rowSpace(design, terms.length);
  const df = rows.length - pivots.length;
  if (df < 1) return undefined;

  const reduced = design.map((row) => pivots.map((column) => row[column]));
  const fit = robustFit({ rows: reduced, ...cells, leastScale: LEAST_SCALE_DB });
  const variance = fit.squaredPsi / df / square(fit.meanSlope);
  const reach = studentQuantile(HIGH, df) * Math.sqrt(variance);
  const estimate = (column: number): Estimate | null => {
    const k = pivots.indexOf(column);
    if (!estimable[column]) return null;
    const value = fit.coefficients[k];
    const half = reach * Math.sqrt(fit.inverse[k][k]);
    return { value, interval: [value - half, value + half] };
  };
  const [rest, after, before, spill, second] = terms.map((_, column) => estimate(column));
  const fitted = reduced.map((row) => row.reduce((sum, entry, k) => sum + entry * fit.coefficients[k], 0));
  const residuals = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) residuals[i] = rows[i].levelDb - fitted[designRow[i]];
  return { terms: { rest, after, before, spill, second }, residuals, n: rows.length };
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
  const partial = columnOf(
    which.length,
    (k) => fit.residuals[which[k]] + (rows[which[k]][term] ? estimate.value : 0),
  );
  return meanEstimate(partial);
}

/** A row's surroundings as a number below 16. */
export function maskOf(row: SoftRow): number {
  return (row.after ? 1 : 0) | (row.before ? 2 : 0) | (row.spill ? 4 : 0) | (row.second ? 8 : 0);
}

/** Rows of the same surroundings and level as one cell; cells and surroundings in order of first appearance. */
function counted(rows: readonly SoftRow[]): Counted {
  const masks: number[] = [];
  const rowOfMask = new Int8Array(MASKS).fill(-1);
  const designRow = new Uint8Array(rows.length);
  const cellOf: Map<number, number>[] = [];
  const row: number[] = [];
  const level: number[] = [];
  const count: number[] = [];
  for (let i = 0; i < rows.length; i++) {
    const { levelDb } = rows[i];
    if (!Number.isFinite(levelDb))
      throw new InputError(`rows[${i}].levelDb`, 'must be a finite number', levelDb);
    const mask = maskOf(rows[i]);
    if (rowOfMask[mask] < 0) {
      rowOfMask[mask] = masks.push(mask) - 1;
      cellOf.push(new Map());
    }
    const r = (designRow[i] = rowOfMask[mask]);
    const cell = cellOf[r].get(levelDb);
    if (cell !== undefined) count[cell]++;
    else {
      cellOf[r].set(levelDb, count.push(1) - 1);
      row.push(r);
      level.push(levelDb);
    }
  }
  const cells = { row: new Uint8Array(row), value: new Float64Array(level), count: new Float64Array(count) };
  return { cells, masks, designRow };
}

interface Counted {
  readonly cells: Omit<Cells, 'rows' | 'leastScale'>;
  /** The surroundings there are. */
  readonly masks: readonly number[];
  /** For each stroke, which of them. */
  readonly designRow: Uint8Array;
}
