import type { FeetAlignment } from '../alignment/align-feet';
import type { Alignment } from '../alignment/types';
import type { TimePlayed } from '../exercises/tempo';
import type { Grid } from '../exercises/types';
import type { Limits, Settings } from '../settings';
import type { Stroke } from '../stroke';
import type { Db } from '../units';
import type { HandLines } from './evidence/heights';
import type { AfterAccentNote, ClosestPairNote } from './pad-notes';

/** What the feet played, apart from the hands. */
export interface FeetPlayed {
  readonly strokes: readonly Stroke[];
  readonly alignment: FeetAlignment;
}

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
  /** Of the phrase, each once: those that were not reached have their row too. */
  readonly variationsDue: readonly string[];
  /** Bars to play that were due, in all cycles. */
  readonly barsDue: number;
  /** Names of surfaces whose levels may be compared with each other; left out: none. */
  readonly trimmed?: ReadonlySet<string>;
  /** Ids of the rig's surfaces by the names the voicing gives them; left out where it names none. */
  readonly surfaceIds?: ReadonlyMap<string, string>;
  /** How far trims may leave a right hand off a left one, dB; left out where nothing was trimmed. */
  readonly balanceLeftDb?: Db;
  /** What the pads do to taps right after accents at this tempo; left out where nothing is known. */
  readonly afterAccent?: readonly AfterAccentNote[];
  /** Pads that two strokes of the phrase may come too close for; left out where there are none. */
  readonly closestPairs?: readonly ClosestPairNote[];
  /** True where the rig has learned its false notes. */
  readonly falseNotesKnown?: boolean;
  /** True where time stamps come in clumps: levels are graded, timing is not. */
  readonly clumped?: boolean;
  /** Of every hand on every surface it plays; left out where the rig has not learned them all. */
  readonly heights?: readonly HandLines[];
  /** Left out where the phrase has no feet. */
  readonly feet?: FeetPlayed;
  /** Left out where there was a click. */
  readonly freeTime?: TimePlayed;
}
