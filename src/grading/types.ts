import type { Course } from '../alignment/course/types';
import type { TimePlayed } from '../exercises/tempo';
import type { Kind, StrokeType } from '../exercises/types';
import type { Misfit, Slip } from '../alignment/types';
import type { Limits, Settings } from '../settings';
import type { Hand } from '../stroke';
import type { Db, Ms } from '../units';
import type { Saying } from '../words/en';
import type { Figure, Part, PartedFigure, VariationBand } from './figures/figure';
import type { HeightLines } from './evidence/heights';
import type { JudgedKey, MeasureKey, PartedKey } from './measures';
import type { AfterAccentNote, ClosestPairNote } from './pad-notes';
import type { Counting, SlotFacts } from './facts/slot-facts';
import type { Counts } from './evidence/tally';
import type { TimeReport } from './time-report';

export type { Band, Figure, Part, PartedFigure, VariationBand } from './figures/figure';
export type { JudgedKey, MeasureKey } from './measures';
export { measureOrder } from './measures';
export type { AfterAccentNote, ClosestPairNote } from './pad-notes';

/** A key that does not apply is absent. */
export type Measures = Readonly<Partial<Record<Exclude<MeasureKey, PartedKey>, Figure>>> &
  Readonly<Partial<Record<PartedKey, PartedFigure>>>;

/** A hand's soft strokes: terms in dB, null where the phrase cannot tell them. */
export interface SoftModel {
  readonly rest: Db | null;
  readonly after: Db | null;
  readonly before: Db | null;
  readonly spill: Db | null;
  readonly second: Db | null;
}

/** What keeps a bar from being clean: a fault in what was played, the order of levels, or a measure by its key. */
export type Broke =
  'missed' | 'extra' | 'slipped' | 'otherBar' | 'wrongHand' | 'wrongDrum' | 'stopped' | 'order' | JudgedKey;

export interface BarReport {
  readonly index: number;
  readonly variation: string;
  /** A bar to listen to or to count aloud: nothing was due, so nothing broke it, and it
   * counts for nothing. Absent for a bar to play. */
  readonly role?: 'listen' | 'say' | 'notPlayed';
  /** Complete, and all that the bar itself can show is on the good side: grading.md section 7. */
  readonly clean: boolean;
  /** Nothing missed, added, slipped, in the wrong hand or on the wrong drum. */
  readonly complete: boolean;
  readonly broke: readonly Broke[];
}

export interface VariationReport {
  readonly name: string;
  readonly bars: number;
  readonly slots: number;
  /** That of its worst judged measure; *too few bars* where that is *holds* from under three, *not played* without any. */
  readonly band: VariationBand;
  readonly supported: number | null;
  /** The worst judged measure, absent where none could be judged. */
  readonly measure?: JudgedKey;
  readonly measures: Measures;
}

export interface TypeFigure {
  readonly n: number;
  /** Median level and 1.4826·MAD, null where there is none. */
  readonly level: Db | null;
  readonly spread: Db | null;
}

export interface SlotReport extends SlotFacts {
  readonly bar: number;
  readonly slot: number;
  readonly hand: Hand;
  readonly kind: Kind;
  readonly level: Db | null;
  readonly deviationMs: Ms | null;
  readonly status: 'matched' | 'missed' | 'slipped' | 'otherBar' | 'notPlayed' | 'tooSoft' | 'notMeasured';
  readonly wrongHand?: true;
  /** On another drum than the voicing sends it to. */
  readonly wrongSurface?: true;
}

/** Where a fault lives: in the whole take's time or strokes, a hand, a kind of stroke, the seams, or in variations. */
export type BlameScope = 'take' | 'hand' | 'kind' | 'seam' | 'variations' | 'variation';

export interface Weakest {
  readonly scope: BlameScope;
  /** All that are as bad, the weakest among them, in phrase order. */
  readonly variations: readonly string[];
  readonly variation: string;
  readonly measure: JudgedKey;
  /** Of a measure with two figures the one that is meant. */
  readonly part?: Part;
  readonly hand?: Hand;
  /** First slot in the bar of the place farthest on the bad side, within its bar. */
  readonly slot: number | null;
  readonly value: number;
  readonly sentence: string;
}

/** One foot: figures without a verdict. */
export interface FootReport {
  readonly slots: number;
  readonly matched: number;
  /** ms. */
  readonly scatter: Figure;
  /** ms, negative early, the estimated offset of the hands still in it. */
  readonly asynchrony: Figure;
  /** Median level of strokes due loud, and of those due soft, dB re velocity 127. Absent where none is due. */
  readonly softness?: Figure;
  readonly softStrokes?: Figure;
}

/** The feet under the hands; a foot that isn't due is absent. */
export interface FeetReport {
  readonly counts: {
    readonly slots: number;
    readonly matched: number;
    readonly missed: number;
    readonly notMeasured: number;
    readonly extra: number;
  };
  readonly K?: FootReport;
  readonly H?: FootReport;
  /** Hand strokes that fall with a foot's stroke minus those that don't, within hand and kind. */
  readonly hands: { readonly deviationMs: Figure; readonly levelDb: Figure };
}

/** `evenhand-report`, version 2: grading.md section 9. */
export interface Report {
  readonly format: 'evenhand-report';
  readonly version: 2;
  readonly takeId: string;
  readonly hands: 'known' | 'assumed' | 'mixed';
  readonly limits: Limits;
  readonly counts: Counts;
  readonly offsetMs: Ms;
  readonly fits: boolean;
  readonly misfit: Misfit | null;
  readonly cycles: { readonly due: number; readonly played: number };
  readonly slips: readonly Slip[];
  /** What happened to the take as a whole, told first; empty where it was played as it was due. */
  readonly course: readonly Course[];
  /** Why no slip was looked for, or null. */
  readonly slipsNotToldBecause: string | null;
  /** Ids of clipping surfaces. */
  readonly clipping: readonly string[];
  readonly settings: Settings;
  /** The report's sentence, by keys and arguments. */
  readonly saying: readonly Saying[];
  /** The same in English. */
  readonly sentence: string;
  readonly measures: Measures;
  readonly softModel: Readonly<Record<Hand, SoftModel | null>>;
  /** Absent where there are under four bars with enough strokes, and where the take doesn't fit its grid. */
  readonly timeModel?: TimeReport;
  readonly bars: readonly BarReport[];
  readonly variations: readonly VariationReport[];
  readonly perHand: Readonly<Record<Hand, { readonly measures: Measures }>>;
  readonly strokeTypes: Readonly<Record<Hand, Readonly<Record<StrokeType, TypeFigure>>>>;
  readonly slots: readonly SlotReport[];
  /** The ways in which slots count: for which figures, and as what. */
  readonly counting: readonly Counting[];
  /** Classes of surfaces within which alone levels were compared; absent where there is one, as without a voicing. */
  readonly surfaces?: readonly string[];
  /** A balance finer than this is not told by the rig's trims; absent where nothing was trimmed. */
  readonly balanceLeftDb?: Db;
  /** Absent where nothing is known, or the phrase is slower than that. */
  readonly afterAccent?: readonly AfterAccentNote[];
  /** Pads that this phrase's flams or doubles may be too close for; absent where nothing is known, or none are. */
  readonly closestPairs?: readonly ClosestPairNote[];
  /** True where the rig has learned its false notes: then those are no reason to see to it. Absent otherwise. */
  readonly falseNotesKnown?: true;
  /** True where time stamps came in clumps: timing is not graded. Absent otherwise. */
  readonly clumped?: true;
  /** The rig's own low, half and full, mean of both hands; absent where it has not learned them. */
  readonly heights?: HeightLines;
  /** Absent where the phrase has no feet, and where the take doesn't fit its grid. */
  readonly feet?: FeetReport;
  /** The time the player kept; absent where there was a click. */
  readonly freeTime?: TimePlayed;
  readonly weakest: Weakest | null;
  /** What is out beside what the sentence leads with, the worst first: each measure once a hand. */
  readonly others: readonly Weakest[];
}
