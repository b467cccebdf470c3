import { square } from '../../../exact';
import type { Estimate } from '../../numbers/intervals';
import { studentQuantile } from '../../numbers/statistics';
import type { TimeModel } from './types';
import { mean } from '../../../ordered';

const FEWEST_FREE = 3;
const HIGH = 0.95;

/** A term of one variation: its value and how many strokes of the smaller side are behind it. */
export interface VariationTerm {
  /** undefined: too few bars. */
  readonly estimate: Estimate | undefined;
  readonly strokes: number;
}

/**
 * A term of each variation: the mean over its bars of the take's term and what the bar has beyond it, ms. The variance
 * is pooled within the variations, t with as many degrees as there are bars more than variations; under 3 of them are
 * too few, and so is a single bar of a variation.
 * @returns by number of the variation; an empty list where the take's term is not told
 */
export function ofVariations(
  model: TimeModel,
  term: 'lag' | 'second',
  variations: number,
): readonly VariationTerm[] {
  if (model[term] === null) return [];
  const values: number[][] = Array.from({ length: variations }, () => []);
  const strokes = new Array<number>(variations).fill(0);
  for (const bar of model.bars) {
    const ms = term === 'lag' ? bar.lagMs : bar.secondMs;
    if (ms === undefined) continue;
    values[bar.variation].push(ms);
    strokes[bar.variation] += term === 'lag' ? bar.lagStrokes : bar.secondStrokes;
  }
  const seen = values.filter((ofOne) => ofOne.length > 0);
  const free = seen.reduce((sum, ofOne) => sum + ofOne.length - 1, 0);
  let squares = 0;
  for (const ofOne of seen) {
    const middle = mean(ofOne) ?? 0;
    for (const value of ofOne) squares += square(value - middle);
  }
  return values.map((ofOne, v): VariationTerm => {
    const value = mean(ofOne);
    if (value === undefined || ofOne.length < 2 || free < FEWEST_FREE)
      return { estimate: undefined, strokes: strokes[v] };
    const half = studentQuantile(HIGH, free) * Math.sqrt(squares / free / ofOne.length);
    return { estimate: { value, interval: [value - half, value + half] }, strokes: strokes[v] };
  });
}
