import type { Kind } from '../../exercises/types';
import type { Hand } from '../../stroke';
import type { Db, Ms } from '../../units';
import type { Wrong } from '../../words/wrong';

/** Verdict words, the same everywhere. */
export type Band = 'holds' | 'close' | 'not yet' | 'too few strokes' | 'not measured';

/** Of a variation: too few bars of it to say that it holds, or none at all. */
export type VariationBand = Band | 'too few bars' | 'not played';

/**
 * One figure. `value` and `interval` (90 %) are in the measure's unit, written as computed; both are null with the
 * bands *too few strokes* and *not measured*. `n`: strokes behind it, one count a group. A measure without a verdict
 * has no margin, supported, band or sure.
 */
export interface Figure {
  readonly value: number | null;
  readonly interval: readonly [number, number] | null;
  readonly n: readonly number[];
  /** +1 at the ideal, 0 at the *holds* limit, −1 at the *not yet* limit. */
  readonly margin?: number | null;
  /** Mean of `margin` and the margin of the interval's end nearer the ideal. */
  readonly supported?: number | null;
  readonly band?: Band;
  /** Both ends of the interval lie in the band, and there are eight strokes of each group. */
  readonly sure?: boolean;
  /** True where it doesn't hold and both ends of the interval lie beyond the *holds* limit: a fault, whatever its band. */
  readonly surelyOut?: true;
  /** The hand a "larger" or "farther" figure is of. */
  readonly hand?: Hand;
  /** The surface a figure is of, where the phrase is voiced to several and levels compare within one only. */
  readonly surface?: string;
  /** The kind a figure is of, where the phrase has taps and ghosts and only one of them is compared. */
  readonly kind?: Kind;
  /** Median accent, dB re velocity 127: what `contrast` is judged by where the rig has heights. */
  readonly accentDb?: Db;
  /** Of `graceSoftness`, true where no grace leads to an accent: its limits are those of graces before soft strokes. */
  readonly beforeSoft?: true;
  /** Time to the stroke before a flam, where its limits are narrower by it. */
  readonly beforeMs?: Ms;
  /** True where clipping makes the value a lower bound. */
  readonly atLeast?: boolean;
  /** Of `complete`: what went wrong, by kind. Absent where nothing did. */
  readonly wrong?: Wrong;
}

/** The two figures of a measure that is judged in time and in level. */
export type Part = 'ms' | 'dB';
export type PartedFigure = Readonly<Record<Part, Figure>>;
