import { cos, length, sin } from '../exact';
import type { Grid } from '../exercises/types';
import { medianInPlace } from '../ordered';

const FEWEST = 3;

/**
 * Median mean resultant length of the half bars' deviations: near 1 where each half bar lies alike within itself, wherever
 * that is; 8 strokes that lie anywhere have about 0.3. Half bars with under 3 strokes, or a quarter of the bar's slots, are
 * left out.
 * @param gaps deviations from the nearest slot, in gaps; @param slotOf for each of them that slot
 * @returns undefined where no half bar has so many
 * Source: circular statistics, common practice.
 */
export function blockResultant(
  { slots, bars }: Grid,
  gaps: Float64Array,
  slotOf: Int32Array,
): number | undefined {
  const lengths: number[] = [];
  let [count, cosines, sines, current] = [0, 0, 0, -1];
  const close = (): void => {
    if (count > 0 && count >= Math.max(FEWEST, bars[current >> 1].slots / 4)) {
      lengths.push(length(cosines, sines) / count);
    }
    [count, cosines, sines] = [0, 0, 0];
  };
  gaps.forEach((gap, i) => {
    const { bar, partial } = slots[slotOf[i]];
    const partials = bars[bar].partialsPerBeat.reduce((sum, one) => sum + one, 0);
    const half = 2 * bar + (2 * partial >= partials ? 1 : 0);
    if (half !== current) {
      close();
      current = half;
    }
    cosines += cos(2 * Math.PI * gap);
    sines += sin(2 * Math.PI * gap);
    count += 1;
  });
  close();
  return medianInPlace(Float64Array.from(lengths));
}
