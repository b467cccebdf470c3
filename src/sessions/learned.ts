import type { Hand } from '../stroke';
import type { Db, Ms } from '../units';

/** What a rig may have learned. Everything is optional in a file: a rig that hasn't learned it works by defaults. */

/** The three heights of a player's strokes. */
export type HeightName = 'low' | 'half' | 'full';
export const heightNames: readonly HeightName[] = ['low', 'half', 'full'];

/** Median level of strokes at one height, dB re velocity 127, trims **left out**; `n` strokes were struck. */
interface Height {
  readonly db: Db;
  readonly n: number;
}

export type Heights = Readonly<Record<HeightName, Height>>;

/** Of each hand that has shown its heights on a surface. */
export type HandHeights = Readonly<Partial<Record<Hand, Heights>>>;

/**
 * Trims of the two landing spots of one surface, added to the level of that hand's strokes there. `leftDb`: how far
 * either hand minus the other may still be off (half the 90 % interval); a balance finer than that is not told by
 * this pad.
 */
export interface SpotTrims {
  readonly R: Db;
  readonly L: Db;
  readonly leftDb: Db;
}

/** Soft notes of the same note just before a louder stroke: within this time, at up to this share of its velocity. */
export interface ForerunnerWindow {
  readonly withinMs: Ms;
  readonly ratio: number;
  /** False notes seen when it was learned. */
  readonly n: number;
}

/** Notes of the same surface after a stroke, between these times, at up to this share of its velocity. */
export interface EchoWindow {
  readonly fromMs: Ms;
  readonly toMs: Ms;
  readonly ratio: number;
  readonly n: number;
}

/**
 * What a stroke on surface `from` makes surface `to` report: between these times after it (negative: before it), at up
 * to this share of its velocity. An ordered pair: the floor may shake the pad and not the reverse.
 */
export interface CrosstalkWindow {
  readonly from: string;
  readonly to: string;
  readonly fromMs: Ms;
  readonly toMs: Ms;
  readonly ratio: number;
  readonly n: number;
}

/**
 * How a tap within `withinMs` after an accent on this surface reads against the hand's low strokes: `db` louder
 * (negative: softer). Pad and hand together; nobody can tell from MIDI which did it.
 */
export interface AfterAccent {
  readonly db: Db;
  readonly withinMs: Ms;
  readonly n: number;
}

/** What the delays of a rig were learned from. */
export interface LearnedDelays {
  /** Standard deviation of single strokes about the sum of both delays. */
  readonly spreadMs: Ms;
  /** Half the 90 % interval of the sum. */
  readonly leftMs: Ms;
  readonly n: number;
  /** Where the output delay is from; *together*: nothing told the two apart, and the sum stands as input delay. */
  readonly output: 'audio clock' | 'by hand' | 'together';
}

/** The surface that starts and stops a take, so that no hand leaves the sticks. */
export interface StartSurface {
  readonly surface: string;
}
