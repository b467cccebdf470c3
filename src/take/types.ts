import type { TimeLine } from '../alignment/free-time';
import type { Hand, RawHit } from '../stroke';
import type { Bpm, Db, Ms } from '../units';

/** What happens to a running take, on the clock of the hits. The tick at Infinity ends it. */
export type LiveEvent =
  { readonly kind: 'hit'; readonly hit: RawHit } | { readonly kind: 'tick'; readonly atMs: Ms };

/** One pass over a slot. `levelDb` is null where nothing answered it. */
export interface LivePass {
  readonly cycle: number;
  /** `notMeasured`: a unison that was struck on one surface, told at its first slot: whose stroke is how loud nobody can say. */
  readonly status: 'matched' | 'missed' | 'tooSoft' | 'notMeasured';
  readonly levelDb: Db | null;
  /**
   * Running offset, tempo and swing taken off; null where nothing answered, or the strokes keep no time that early and late
   * could be told against. Negative is early.
   */
  readonly deviationMs: Ms | null;
  readonly wrongHand: boolean;
  /** On another drum than the voicing sends it to; left out where it wasn't. Its level compares with none. */
  readonly wrongSurface?: true;
  /** Level of the one stroke a surface reported for two sticks; only where not measured. */
  readonly struckDb?: Db;
  /** Grace notes that were heard before it, in time order; left out where none were, or none are due. */
  readonly graces?: readonly LiveGrace[];
}

/** A grace note before its stroke. */
export interface LiveGrace {
  readonly levelDb: Db;
  /** Ahead of the stroke it leads to (of the main stroke, for both of a drag). */
  readonly aheadMs: Ms;
}

/** A stroke no slot was due for: where in its bar it fell, 0 at the start, 1 at the end. */
export interface LiveExtra {
  readonly cycle: number;
  readonly barInCycle: number;
  readonly at: number;
  readonly levelDb: Db;
}

/** What the live pictures show; provisional, the report is the truth. */
export interface LiveState {
  /** Strokes so far, extras included. */
  readonly strokes: number;
  readonly offsetMs: Ms;
  /** By so much all of it was begun late, or comes late, beyond the offset: the picture follows. */
  readonly lateMs: Ms;
  /** What early and late can be said of: all, not of the hands (it may as well be swing), nothing. */
  readonly told: 'all' | 'not by hand' | 'nothing';
  /** By slot of the cycle: its last eight passes, newest last. */
  readonly passes: readonly (readonly LivePass[])[];
  /** Extras of the last eight cycles. */
  readonly extras: readonly LiveExtra[];
  /** Contrast (dB) of the last two cycles, null before there is an accent and a soft stroke. */
  readonly contrastDb: Db | null;
  /** Notes no surface owns, so far. */
  readonly unmapped: number;
  /** The time the player keeps; only where there is no click. */
  readonly freeTime?: LiveTime;
}

/** The time a player keeps without a click, as it stands. */
export interface LiveTime {
  /** Which beat of the phrase is when, on the clock of the hits; null before the first stroke. */
  readonly line: TimeLine | null;
  /** The line's tempo; null until it goes through four slots. */
  readonly bpm: Bpm | null;
  /** How much faster than over the first sixteen slots, %; null before there is more than those. */
  readonly fasterPercent: number | null;
}

/** Where the click stands: a beat of a bar, the count-in, or the bar said first. */
export type Position =
  | { readonly phase: 'before'; readonly untilMs: Ms }
  /** In free time, before the stroke that is the downbeat. */
  | { readonly phase: 'first stroke' }
  | { readonly phase: 'count-in'; readonly beat: number; readonly beats: number }
  | { readonly phase: 'say'; readonly beat: number; readonly beats: number }
  | {
      readonly phase: 'playing';
      readonly bar: number;
      readonly barInCycle: number;
      readonly cycle: number;
      readonly beat: number;
    }
  | { readonly phase: 'after' };

/** One strike of each hand, before a take: the notes that make the surfaces. */
export interface Strikes {
  readonly first: RawHit | null;
  readonly second: RawHit | null;
  readonly firstHand: Hand;
}
