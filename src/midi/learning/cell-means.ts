import { square } from '../../exact';
import type { Estimate } from '../../grading/numbers/intervals';
import { squaredDeviations, studentQuantile } from '../../grading/numbers/statistics';
import { mean } from '../../ordered';

/** Values with their weight in a sum of means. */
interface Cell {
  readonly values: readonly number[];
  readonly weight: number;
}

/**
 * Σ weight·mean with its 90 % interval, spreads not taken to be equal: Welch's t for any contrast, Satterthwaite's degrees
 * of freedom.
 * @returns undefined where a cell has fewer than two values
 * @example weightedMeans([{ values: [3, 5], weight: 1 }, { values: [1, 1], weight: -1 }])?.value // => 3
 */
export function weightedMeans(cells: readonly Cell[]): Estimate | undefined {
  let value = 0;
  let squared = 0;
  let inverseDf = 0;
  for (const { values, weight } of cells) {
    const middle = mean(values);
    if (middle === undefined || values.length < 2) return undefined;
    value += weight * middle;
    const share = (square(weight) * squaredDeviations(values)) / (values.length - 1) / values.length;
    squared += share;
    inverseDf += square(share) / (values.length - 1);
  }
  if (squared === 0) return { value, interval: [value, value] };
  const reach = studentQuantile(0.95, square(squared) / inverseDf) * Math.sqrt(squared);
  return { value, interval: [value - reach, value + reach] };
}

/** Half the width of an interval. */
export const halfWidth = ({ interval: [low, high] }: Estimate): number => (high - low) / 2;
