import { atan2, cos, sin } from '../../exact';
import type { Grid } from '../../exercises/types';
import type { Settings } from '../../settings';
import type { Ms } from '../../units';
import { blocksOf } from './blocks';
import type { OnLattice } from './lattice';
import { lineOrStep } from './line-or-step';
import type { Stretch } from './pauses';

/** A stretch of strokes that keeps one time against the click. */
export interface Segment extends Stretch {
  /** ms later per ms. */
  readonly slope: number;
  readonly fromMs: Ms;
  /** Stroke − place at `fromMs`, −½ to ½ of a place. */
  readonly phaseMs: Ms;
  /** Whether it follows on the one before without a pause, at a step in time. */
  readonly isStep: boolean;
}

interface SegmentOptions {
  readonly grid: Grid;
  /** False in ramps and in free time: there the time is the player's own. */
  readonly isSteady: boolean;
  /** Bars in which the click was silent. */
  readonly bare: readonly boolean[];
  readonly settings: Settings;
}

/** A stretch, or the two it falls into at a step, with the line each keeps. @param strokes all of the take's */
export function segmentsOf(
  stretch: Stretch,
  strokes: OnLattice,
  { grid, settings, isSteady, bare }: SegmentOptions,
): readonly Segment[] {
  const { lattice, at, places } = strokes;
  const segmentAs = (part: Stretch, slope: number, isStep: boolean): Segment => {
    const fromMs = part.from === 0 ? lattice.at[0] : at[part.from];
    const perPlace = 1 / lattice.stepMs;
    const phase = phaseOf(places, part, (i) => slope * (at[i] - fromMs) * perPlace);
    return { ...part, slope, fromMs, phaseMs: phase * lattice.stepMs, isStep };
  };
  if (!isSteady) return [segmentAs(stretch, 0, false)];
  const blocks = blocksOf(strokes, stretch, (bar) => bare[bar] !== true);
  const found = lineOrStep(blocks, grid.smallestGapMs, settings);
  if (found.kind === 'step' && !bare.includes(true)) {
    const split = blocks[found.block].from;
    return [
      segmentAs({ ...stretch, to: split }, 0, false),
      segmentAs({ ...stretch, from: split, cable: false }, 0, true),
    ];
  }
  return [segmentAs(stretch, found.kind === 'line' ? found.slope : 0, false)];
}

/**
 * **Phase**: circular mean of what lies over a whole place, −½ to ½ of a place, less what is expected of each stroke.
 * @param places of all strokes on the lattice; @param expected in places, by the stroke's index
 */
export function phaseOf(
  places: Float64Array,
  { from, to }: { readonly from: number; readonly to: number },
  expected: (i: number) => number = () => 0,
): number {
  let [cosines, sines] = [0, 0];
  for (let i = from; i < to; i += 1) {
    const over = places[i] - expected(i);
    const angle = 2 * Math.PI * (over - Math.floor(over));
    cosines += cos(angle);
    sines += sin(angle);
  }
  return atan2(sines, cosines) / (2 * Math.PI);
}

/** The place that a stroke of a segment stands for by its time. @param i of the stroke, of all */
export function placeIn(
  { slope, fromMs, phaseMs }: Segment,
  { lattice, at, places }: OnLattice,
  i: number,
): number {
  const over = (phaseMs + slope * (at[i] - fromMs)) / lattice.stepMs;
  return Math.floor(places[i] - over + HALF);
}

const HALF = 0.5;
