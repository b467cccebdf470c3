import { columnsOn } from '../../grading/measure-columns';
import { isJudged } from '../../grading/verdict';
import type { Band, Figure, JudgedKey, MeasureKey, Part } from '../../grading/types';
import { fixed, signed } from '../shared/numbers';

/** Columns shown where there is no special reason for another. */
export const mainColumns: readonly JudgedKey[] = columnsOn('page');

/**
 * A figure in a cell of a column that carries the unit: the louder hand by its letter, the hand a figure is of.
 * @example cellWords('balanceSoft', null, { value: -0.9, interval: null, n: [] }) // => 'L +0.9'
 * @example cellWords('leakBefore', null, { value: 5.1, interval: null, n: [], hand: 'L' }) // => 'L 5.1'
 */
export function cellWords(key: MeasureKey, part: Part | null, figure: Figure): string {
  const value = figure.value;
  if (value === null) return figure.band === 'not measured' ? '·' : 'few';
  if (key === 'balanceSoft' || key === 'balanceAccent') {
    const louder = fixed(Math.abs(value), 1);
    return Number(louder) === 0 ? louder : `${value < 0 ? 'L' : 'R'} +${louder}`;
  }
  const hand = figure.hand === undefined ? '' : `${figure.hand} `;
  const least = figure.atLeast === true ? '≥ ' : '';
  return `${hand}${least}${numberWords(key, part, value)}`;
}

/** A value without its unit, with as many places as it deserves. */
export function numberWords(key: MeasureKey, part: Part | null, value: number): string {
  switch (key) {
    case 'complete':
      return fixed(value * 100, 1);
    case 'clarity':
      return fixed(value, 3);
    case 'scatter':
    case 'shape':
      return fixed(value, 1);
    case 'lag':
    case 'asynchrony':
      return signed(value, 1);
    case 'accentStretch':
    case 'doubleGap':
    case 'fade':
      return signed(value, 1);
    case 'seam':
      return signed(value, part === 'ms' ? 0 : 1);
    default:
      return fixed(value, 1);
  }
}

/** Bands that no figure should be read from. */
export function isUnjudged(band: Band | undefined): boolean {
  return band !== undefined && !isJudged(band);
}
