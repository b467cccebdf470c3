import { square } from '../exact';
import { distributionOf, median } from '../grading/numbers/statistics';
import type { BarStrokes, PlacedStroke } from '../take/bar-strokes';

/** What is followed bar by bar. */
export const barMeasures = ['contrast', 'softness', 'balanceSoft', 'scatter'] as const;
export type BarMeasure = (typeof barMeasures)[number];

/** Fewer strokes of a bar have no spread. */
const FEWEST = 4;

/**
 * A bar's own value: medians in dB, balance right less left; scatter is the spread of its strokes about their places, in
 * ms, without what moved the bar as a whole.
 * @returns undefined where the bar has none of the strokes
 */
export function barValue({ strokes }: BarStrokes, measure: BarMeasure): number | undefined {
  const level = (which: (stroke: PlacedStroke) => boolean): number | undefined =>
    median(distributionOf(strokes.filter(which).map(({ levelDb }) => levelDb)));
  const isSoft = ({ slot }: PlacedStroke): boolean => slot.kind !== 'accent';
  switch (measure) {
    case 'softness':
      return level(isSoft);
    case 'contrast':
      return less(
        level((stroke) => !isSoft(stroke)),
        level(isSoft),
      );
    case 'balanceSoft':
      return less(
        level((stroke) => isSoft(stroke) && stroke.slot.hand === 'R'),
        level((stroke) => isSoft(stroke) && stroke.slot.hand === 'L'),
      );
    case 'scatter': {
      if (strokes.length < FEWEST) return undefined;
      const mean = strokes.reduce((sum, { overPlaceMs }) => sum + overPlaceMs, 0) / strokes.length;
      const squares = strokes.reduce((sum, { overPlaceMs }) => sum + square(overPlaceMs - mean), 0);
      return Math.sqrt(squares / (strokes.length - 1));
    }
  }
}

function less(value: number | undefined, other: number | undefined): number | undefined {
  return value === undefined || other === undefined ? undefined : value - other;
}
