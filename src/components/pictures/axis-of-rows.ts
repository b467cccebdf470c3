import { fixed, signed } from '../shared/numbers';
import { pointsOf, type ChartUnit, type RowsPicture } from './picture';

interface RowsAxis {
  readonly min: number;
  readonly max: number;
  readonly step: number;
}

const STEPS: Readonly<Record<ChartUnit, number>> = { dB: 6, ms: 10, margin: 0.5 };
/** Margins lower than this stand at the edge. */
const LEAST_MARGIN = -1.5;
/** Times that reach farther have half as many lines. */
const WIDE_MS = 60;
/** A difference this small would fill the width with noise. */
const LEAST_DB = 6;

/**
 * Space for every point with its spread, in whole steps: levels up to 0 dB, differences of level on either side of
 * nought, times as far to the left as to the right, margins from under *not yet* to *ideal*.
 */
export function axisOf(picture: RowsPicture): RowsAxis {
  const step = STEPS[picture.unit];
  const points = picture.rows.flatMap(pointsOf);
  const low = Math.min(...points.map((point) => point.median - point.spread));
  const high = Math.max(...points.map((point) => point.median + point.spread));
  switch (picture.unit) {
    case 'margin':
      return { min: LEAST_MARGIN, max: 1, step };
    case 'ms': {
      const farthest = Math.max(Math.abs(low), Math.abs(high), step);
      const between = farthest > WIDE_MS ? 2 * step : step;
      const reach = between * Math.ceil(farthest / between);
      return { min: picture.name === 'grace notes' ? 0 : -reach, max: reach, step: between };
    }
    case 'dB':
      if (!isDifference(picture)) return { min: step * Math.floor(low / step), max: 0, step };
      return {
        min: 3 * Math.floor(Math.min(low, -LEAST_DB / 2) / 3),
        max: 3 * Math.ceil(Math.max(high, LEAST_DB) / 3),
        step: 3,
      };
  }
}

/** Decibels more or less than something, not a level. */
const isDifference = ({ name }: Pick<RowsPicture, 'name'>): boolean =>
  name === 'soft strokes' || name === 'differences by place';

/** A number as it stands on an axis. */
export function numberOn({ unit, name }: Pick<RowsPicture, 'unit' | 'name'>, value: number): string {
  if (unit === 'margin') {
    return value === -1 ? 'not yet' : value === 0 ? 'holds' : value === 1 ? 'ideal' : '';
  }
  const isSigned = unit === 'ms' && name !== 'grace notes';
  return `${isSigned ? signed(value, 0) : fixed(value, 0)} ${unit}`;
}

/** A point's number beside it. */
export function numberBeside({ unit, name }: RowsPicture, value: number): string {
  if (name === 'grace notes') return fixed(value, 0);
  if (unit === 'ms') return signed(value, 0);
  if (unit === 'margin') return signed(value, 2);
  return isDifference({ name }) ? signed(value, 1) : fixed(value, 1);
}
