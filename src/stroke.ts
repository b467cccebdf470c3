import type { Db, Ms, Velocity } from './units';

/** R and L are told apart by letter everywhere. */
export type Hand = 'R' | 'L';

/** A note-on as received: velocity 1–127, channel 1–16, time on the clock of the take. Always kept. */
export interface RawHit {
  readonly atMs: Ms;
  readonly port: string;
  readonly channel: number;
  readonly note: number;
  readonly velocity: Velocity;
}

/** One note-on after conditioning: on a surface, with the rig's delays and trims taken off. */
export interface Stroke {
  /** Index of the raw hit it came from. */
  readonly hit: number;
  /** Time with the rig's input and output delay taken off. */
  readonly atMs: Ms;
  /** dB re velocity 127, trim included. */
  readonly levelDb: Db;
  readonly velocity: Velocity;
  /** Id of the surface it fell on. */
  readonly surface: string;
  /** The hand that plays this surface, or null where either may. */
  readonly hand: Hand | null;
  /** Within 100 ms after a stroke and under 35 % of its velocity: a stroke only if a slot is left for it. */
  readonly echoLike: boolean;
}

export const otherHand = (hand: Hand): Hand => (hand === 'R' ? 'L' : 'R');
