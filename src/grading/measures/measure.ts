import type { Settings } from '../../settings';
import type { Hand } from '../../stroke';
import type { Ms } from '../../units';
import type { Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure, Part } from '../figures/figure';
import type { HeightLines } from '../evidence/heights';
import type { Limit } from '../figures/limit';
import type { RemedyRow } from '../remedy/rules';
import type { GroupName } from '../facts/group-words';
import type { GridBar } from '../../exercises/types';

/** What a limit may go by, beside the settings in force. */
export interface LimitAt {
  /** Mean gap of the slots judged, or the smallest gap of what will be played. */
  readonly gapMs: Ms;
  /** The value judged, for a measure with a limit either side of its ideal. Left out: the upper side. */
  readonly value?: number;
  /** Time to the stroke before a flam: its upper limits are never over half of it. */
  readonly beforeMs?: Ms;
  /** The rig's own, where it has learned them. */
  readonly heights?: HeightLines;
  /** Of graces: none of them leads to an accent. */
  readonly beforeSoft?: true;
}

/** Strokes that a figure is made of: those it is about come first, then those they are held against. */
export interface StrokeGroup {
  readonly name: GroupName;
  /** True where slot `i` is one of them. A stroke is of the first group that has it. */
  readonly has: (i: number) => boolean;
}

/** How far slot `i` lies on the bad side, larger is worse; undefined where it isn't of the measure's first group. */
export type Badness = (i: number) => number | undefined;

/** One number a measure gives: most give one, a seam one in ms and one in dB. */
export interface MeasureFigure<Of extends Part | null = Part | null> {
  /** The name of the number beside its measure's; null where it is the only one. */
  readonly part: Of;
  readonly unit: 'dB' | 'ms' | '%' | 'ratio';
  /** What of a stroke is read: where times (levels) can't be told, figures made of them are *not measured*. */
  readonly madeOf: 'strokes' | 'times' | 'levels';
  /** The figure within a scope; undefined where its strokes cannot occur there. */
  readonly estimate: (evidence: Evidence, scope: Scope) => Figure | undefined;
  /** The strokes behind it, by what grading used of each. */
  readonly groups: (evidence: Evidence) => readonly StrokeGroup[];
  /** What becomes of the value where the left-handed play what the right-handed did. */
  readonly mirrored: 'same' | 'flips';
  /** What becomes of the value where all that came late comes as early. */
  readonly reversed: 'same' | 'flips';
}

/** What a bar shows of a measure by itself: a value, and what its limit goes by there. */
export interface BarValue extends LimitAt {
  readonly value: number;
  /** Whose, where a bar has one of each hand. */
  readonly hand?: Hand;
}

/** How a measure judges one bar (grading.md section 7): a clean bar reaches the margin with each of its values. */
export interface InBar {
  /** One value, or one a hand or a class of surfaces; none where the bar has too few strokes for one, or can't tell. */
  readonly values: (evidence: Evidence) => (bar: GridBar) => readonly BarValue[];
  /** 0 is the *holds* limit, −1 the *not yet* limit. */
  readonly leastMargin: (settings: Settings) => number;
}

/** A number with a verdict. */
export interface JudgedFigure<Of extends Part | null = Part | null> extends MeasureFigure<Of> {
  readonly limit: (settings: Settings, at: LimitAt) => Limit;
  /** What the limit goes by beside the settings: then it can't be said without. */
  readonly limitGoesBy?: 'the gap' | 'the side';
  /** Left out: one bar can't show it. */
  readonly inBar?: InBar;
  /** Which slot to name. */
  readonly badness: (evidence: Evidence, figure: Figure, variation: number) => Badness;
  /** The picture that shows it best; null where a table tells it better. */
  readonly picture:
    | 'levels by kind'
    | 'levels by place'
    | 'timing by place'
    | 'arrival'
    | 'grace notes'
    | 'accents and soft'
    | null;
}

/** The one number of the bar view that comes nearest to a measure. */
export type LiveName =
  'contrast' | 'soft level' | 'leak before' | 'leak after' | 'balance' | 'early or late' | 'scatter';

interface Named<Key extends string> {
  readonly key: Key;
  /** Where it is measured: a hand's own row has it too, or not. */
  readonly of: 'take only' | 'take and variations' | 'hands too';
}

/** A measure without a verdict: shown under "all measures". */
export interface PlainMeasure<Key extends string = string> extends Named<Key> {
  readonly verdict: 'none';
  readonly figures: readonly MeasureFigure[];
}

/**
 * A measure with a verdict, whole. `names`: it can be why a variation is the weakest.
 * @typeParam Of null for a measure of one number, else the names of its numbers
 */
export interface JudgedMeasure<
  Key extends string = string,
  Of extends Part | null = Part | null,
> extends Named<Key> {
  readonly verdict: 'names' | 'names when nothing else is out' | 'never names';
  /** What the whole phrase's fault is about, where no hand is named with it. */
  readonly about: 'take' | 'hand' | 'kind' | 'seam';
  readonly figures: readonly JudgedFigure<Of>[];
  /** Measures that aren't named beside this one: their figures are its shadow. */
  readonly shadows?: readonly string[];
  /** What mends it. */
  readonly remedy: RemedyRow;
  /** What does where it goes by the figure; undefined where it doesn't go by this one. */
  readonly remedyIf?: (figure: Figure) => RemedyRow | undefined;
  readonly live: LiveName;
  /** Where its column stands in the tables of variations, from the left; left out: only where it is a reason. */
  readonly column?: { readonly rank: number; readonly on: 'page and terminal' | 'terminal' };
}

export type Measure = PlainMeasure | JudgedMeasure;
