import type { Alignment } from '../alignment/types';
import type { Grid } from '../exercises/types';
import type { Limits, Settings } from '../settings';
import type { Stroke } from '../stroke';

/** All that a report is made from. */
export interface Graded {
  readonly takeId: string;
  readonly limits: Limits;
  readonly settings: Settings;
  readonly hands: 'known' | 'assumed' | 'mixed';
  readonly grid: Grid;
  /** After conditioning, trims in `levelDb`; `velocity` tells clipping. */
  readonly strokes: readonly Stroke[];
  readonly alignment: Alignment;
  /** What conditioning kept from being strokes. */
  readonly conditioning: {
    readonly forerunners: number;
    readonly crosstalk: number;
    readonly unmapped: number;
  };
  readonly cycles: { readonly due: number; readonly played: number };
}
