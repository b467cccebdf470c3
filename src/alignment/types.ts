import type { Hand } from '../stroke';
import type { Bpm, Ms } from '../units';
import type { Course } from './course/types';

/** What became of one slot. `stroke` is an index into the strokes given to `align`. */
export type SlotOutcome =
  | {
      readonly status: 'matched';
      readonly stroke: number;
      /** Stroke − slot after the rig's delays, the estimated offset still in it. Negative is early. */
      readonly deviationMs: Ms;
      readonly wrongHand: boolean;
    }
  | { readonly status: 'slipped'; readonly stroke: number | null; readonly deviationMs: Ms | null }
  /** Its bar was played as another. */
  | { readonly status: 'otherBar'; readonly stroke: number | null; readonly deviationMs: Ms | null }
  | { readonly status: 'missed' }
  /** In a pause, before a late start, while the cable was out. */
  | { readonly status: 'notPlayed' }
  | { readonly status: 'tooSoft' }
  | { readonly status: 'notMeasured' };

/** A stroke no slot was due for; it belongs to the bar it falls in. */
export interface Extra {
  readonly stroke: number;
  readonly bar: number;
}

/** A stroke dropped or added, and on with the pattern shifted: `slots` slots from `slot` of `bar` are out. */
export interface Slip {
  readonly bar: number;
  /** First slipped slot, within its bar. */
  readonly slot: number;
  readonly slots: number;
  /** Places the played pattern is ahead (+) or behind (−) in the slipped stretch. */
  readonly lag: number;
}

/** A bar that was played as another bar of the phrase. */
export interface OtherBar {
  readonly bar: number;
  readonly slots: number;
  /** The variation it was played as. */
  readonly played: string;
  /** With the other hand throughout; left out where the hands were as due. */
  readonly mirrored?: true;
}

/** The grace strokes that were found before a slot's stroke; fewer than due where some were left out. */
export interface GracePair {
  readonly slot: number;
  readonly strokes: readonly number[];
}

/** Why a take does not fit its grid; `tempoBpm` where another tempo would. */
export interface Misfit {
  readonly reason: 'subdivision' | 'tempo' | 'swung' | 'unpaired' | 'rig';
  readonly tempoBpm?: Bpm;
}

/** The answer to: which stroke answers which slot. One outcome a slot, in grid order. */
export interface Alignment {
  /** Estimated offset: what the rig's delays leave, plus the player's mean asynchrony. */
  readonly offsetMs: Ms;
  /** The pairing limit L used, in units of a slot's gap. */
  readonly limitGaps: number;
  readonly outcomes: readonly SlotOutcome[];
  readonly extras: readonly Extra[];
  /** Strokes that stayed echoes (indices of strokes). */
  readonly echoes: readonly number[];
  readonly slips: readonly Slip[];
  readonly otherBars: readonly OtherBar[];
  /** What happened to the take as a whole; empty where it was played as it was due. */
  readonly course: readonly Course[];
  /** Strokes that came twice (indices of strokes): they answer nothing and are no extras. */
  readonly doubles: readonly number[];
  /** Grace strokes by slot, in time order (indices of strokes); absent where the phrase has none. */
  readonly graces?: readonly GracePair[];
  /** Why no slip was looked for, or null where they were. */
  readonly slipsNotToldBecause: 'no accents' | 'accents not told from taps' | null;
  readonly misfit: Misfit | null;
}

/** The least that alignment needs of a stroke. `Stroke` is one. */
export interface AlignStroke {
  readonly atMs: Ms;
  readonly levelDb: number;
  readonly hand: Hand | null;
  readonly echoLike: boolean;
  /** Id of its surface: two strokes at once on two surfaces are a unison's. */
  readonly surface?: string;
}
