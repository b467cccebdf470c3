import type { Hand } from '../../../stroke';
import type { Ms } from '../../../units';
import type { Estimate } from '../../numbers/intervals';

/** One matched main stroke of the hands, as the time model sees it. Rows of one bar follow each other. */
export interface TimeRow {
  readonly bar: number;
  readonly cycle: number;
  readonly variation: number;
  readonly hand: Hand;
  /** Place in its beat, from 0, and partials of that beat. */
  readonly partial: number;
  readonly partials: number;
  /** Second note of a double, of whatever kinds. */
  readonly second: boolean;
  /** First slot of a bar whose variation differs from the one before. */
  readonly seam: boolean;
  /** Stroke less slot; negative is early. */
  readonly deviationMs: Ms;
  readonly gapMs: Ms;
}

/** Measures that a swing can pass for. */
export type LikeSwing = 'lag' | 'doubleGap';

/** What the whole take says of where strokes fall, each told apart from the others. Intervals of 90 %. */
export interface TimeModel {
  /** Right less left, ms; null: not measured, because what was played cannot tell it from the rest. */
  readonly lag: Estimate | null;
  /** Off-beats later than on-beats, ms. */
  readonly feel: Estimate | null;
  /** Second notes of doubles later than other strokes, ms. */
  readonly second: Estimate | null;
  /** Told only because no swing was looked for: either may be what was played. */
  readonly notToldApart: readonly LikeSwing[];
  /** By row: deviation less its bar's middle and the terms, ms; NaN in bars with too few rows. */
  readonly residuals: Float64Array;
  readonly bars: readonly TimedBar[];
}

/** A bar of the model. */
export interface TimedBar {
  readonly bar: number;
  readonly cycle: number;
  readonly variation: number;
  /** Weighted mean of the deviations less the terms, ms: how late the whole bar comes. */
  readonly meanMs: Ms;
  /** The take's term and what this bar has beyond it, ms; undefined where a side has no stroke. */
  readonly lagMs: Ms | undefined;
  readonly secondMs: Ms | undefined;
  /** Strokes of the smaller side of each. */
  readonly lagStrokes: number;
  readonly secondStrokes: number;
}
