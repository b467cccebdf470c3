import type { Evidence } from './evidence/evidence';
import type { Estimate } from './numbers/intervals';
import type { LikeSwing } from './models/time-model/types';

/** What the take's time model says, in the report. Terms in ms with their 90 % intervals; null: not told. */
export interface TimeReport {
  /** Right less left. */
  readonly lag: Estimate | null;
  /** Off-beats later than on-beats, beyond the phrase's own swing. */
  readonly feel: Estimate | null;
  /** Second notes of doubles later than other strokes. */
  readonly second: Estimate | null;
  /** Told only because no swing was looked for: either may be what was played. */
  readonly notToldApart: readonly LikeSwing[];
  /**
   * Where the second of two partials was played, %: 50 is straight. Where a late hand or wide doubles can't be told from
   * a swing, as if all of it were swing. null: no beat has an even number of partials with strokes on both kinds.
   */
  readonly swingPercent: number | null;
}

/** @returns undefined where there are under four bars with enough strokes */
export function timeReport({ time, graded: { grid } }: Evidence): TimeReport | undefined {
  const { model, offBeatsMs, straightGapMs } = time;
  if (model === undefined) return undefined;
  const { lag, feel, second, notToldApart } = model;
  const laterMs = feel?.value ?? (notToldApart.length > 0 ? offBeatsMs : undefined);
  const swingPercent =
    laterMs === undefined || straightGapMs === undefined
      ? null
      : 100 * grid.swing + (50 * laterMs) / straightGapMs;
  return { lag, feel, second, notToldApart, swingPercent };
}
