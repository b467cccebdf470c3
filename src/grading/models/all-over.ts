import { columnOf } from '../../column';
import { robustFit } from '../numbers/robust-fit';
import { rowSpace } from '../numbers/row-space';
import { LEAST_SCALE_DB, maskOf, TERM_FLAGS, type SoftRow } from './soft-model';
import type { Db } from '../../units';
import { median, MAD_TO_SD } from '../../ordered';

const FEWEST_OF_CLASS = 2;

/**
 * How far each variation's soft strokes of one hand lie above (below: negative) what leaks make of them, *all over*, dB;
 * 0 where they don't. It is told from a leak in two stages: first the four terms and a level for each variation are
 * fitted, and what is left over the median of these levels and the terms is looked at by class, the set of terms that a
 * stroke carries. A leak lifts some classes; only where every class lies above is the variation loud all over, by the
 * least class mean less its error.
 * @param variationOf by row the number of its variation
 * @param leastDb under this a variation isn't called loud or soft all over
 * @returns by variation; all 0 with a single variation, or where levels and terms can't be told from each other
 * @example taps of one variation 4 dB up, whatever they lie beside: about 4; only those before an accent: 0
 */
export function loudAllOver(
  rows: readonly SoftRow[],
  variationOf: ArrayLike<number>,
  variations: number,
  leastDb: Db,
): Float64Array {
  const over = new Float64Array(variations);
  const above = aboveOwnTerms(rows, variationOf, variations);
  if (above === undefined) return over;
  const classes = Array.from({ length: variations }, () => new Map<number, number[]>());
  rows.forEach((row, i) => {
    const mask = maskOf(row);
    const ofClass = classes[variationOf[i]].get(mask);
    if (ofClass) ofClass.push(above[i]);
    else classes[variationOf[i]].set(mask, [above[i]]);
  });
  return over.map((_, v) =>
    commonOf(
      [...classes[v].values()].filter((ofClass) => ofClass.length >= FEWEST_OF_CLASS),
      leastDb,
    ),
  );
}

/** By row the level less the median of the variations' levels and less its terms, dB; undefined where untold. */
function aboveOwnTerms(
  rows: readonly SoftRow[],
  variationOf: ArrayLike<number>,
  variations: number,
): Float64Array | undefined {
  const cells = cellsOf(rows, variationOf);
  const design = cells.kinds.map(({ mask, variation }) => [
    ...TERM_FLAGS.map((_, bit) => (mask >> bit) & 1),
    ...Array.from({ length: variations }, (_, v) => Number(v === variation)),
  ]);
  const terms = TERM_FLAGS.length;
  const { pivots, estimable } = rowSpace(design, terms + variations);
  const carried = TERM_FLAGS.map((_, bit) => cells.kinds.some(({ mask }) => ((mask >> bit) & 1) === 1));
  const played = Array.from({ length: variations }, (_, v) =>
    cells.kinds.some((kind) => kind.variation === v),
  );
  const isEstimable = (column: number): boolean =>
    estimable[column] || !(column < terms ? carried[column] : played[column - terms]);
  if (played.filter(Boolean).length < 2 || rows.length <= pivots.length) return undefined;
  if (!estimable.every((_, column) => isEstimable(column))) return undefined;

  const fit = robustFit({
    rows: design.map((row) => pivots.map((column) => row[column])),
    row: cells.row,
    value: Float64Array.from(cells.value),
    count: Float64Array.from(cells.count),
    leastScale: LEAST_SCALE_DB,
  });
  const coefficient = (column: number): number => {
    const k = pivots.indexOf(column);
    return k < 0 ? 0 : fit.coefficients[k];
  };
  const levels = played.flatMap((is, v) => (is ? [coefficient(terms + v)] : []));
  const rest = median(levels) ?? 0;
  const expected = cells.kinds.map(({ mask }) =>
    TERM_FLAGS.reduce((sum, _, bit) => sum + ((mask >> bit) & 1) * coefficient(bit), rest),
  );
  return columnOf(rows.length, (i) => rows[i].levelDb - expected[cells.kindOf[i]]);
}

/** What all classes lie above or below by, at least; 0 where they don't agree, or where there is a single one. */
function commonOf(classes: readonly (readonly number[])[], leastDb: Db): Db {
  if (classes.length < 2) return 0;
  const means = classes.map((ofClass) => ofClass.reduce((sum, value) => sum + value, 0) / ofClass.length);
  const errors = classes.map((ofClass) => spreadOf(ofClass) / Math.sqrt(ofClass.length));
  const side = Math.sign(means[0]);
  if (means.some((mean) => mean * side <= 0)) return 0;
  const least = Math.min(...means.map((mean, k) => mean * side - errors[k]));
  return least < leastDb ? 0 : side * least;
}

function spreadOf(values: readonly number[]): number {
  const middle = median(values) ?? 0;
  return Math.max(LEAST_SCALE_DB, MAD_TO_SD * (median(values.map((value) => Math.abs(value - middle))) ?? 0));
}

interface CountedKinds {
  /** Surroundings and variations there are. */
  readonly kinds: readonly { readonly mask: number; readonly variation: number }[];
  /** For each stroke, which of them. */
  readonly kindOf: Uint32Array;
  /** Strokes of one kind and level as one cell. */
  readonly row: readonly number[];
  readonly value: readonly number[];
  readonly count: readonly number[];
}

function cellsOf(rows: readonly SoftRow[], variationOf: ArrayLike<number>): CountedKinds {
  const kinds: { mask: number; variation: number }[] = [];
  const numbers = new Map<number, number>();
  const cellOf: Map<number, number>[] = [];
  const kindOf = new Uint32Array(rows.length);
  const row: number[] = [];
  const value: number[] = [];
  const count: number[] = [];
  rows.forEach((one, i) => {
    const mask = maskOf(one);
    const key = variationOf[i] * MASKS + mask;
    let kind = numbers.get(key);
    if (kind === undefined) {
      kind = kinds.push({ mask, variation: variationOf[i] }) - 1;
      numbers.set(key, kind);
      cellOf.push(new Map());
    }
    kindOf[i] = kind;
    const cell = cellOf[kind].get(one.levelDb);
    if (cell !== undefined) count[cell]++;
    else {
      cellOf[kind].set(one.levelDb, count.push(1) - 1);
      row.push(kind);
      value.push(one.levelDb);
    }
  });
  return { kinds, kindOf, row, value, count };
}

const MASKS = 2 ** TERM_FLAGS.length;
