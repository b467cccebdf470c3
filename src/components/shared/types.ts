import type { Bpm } from '../../units';

/** Where strokes may come from: a MIDI port, or a bundled take that a model player plays. */
export interface InputChoice {
  readonly id: string;
  readonly name: string;
  readonly kind: 'midi' | 'take';
}

/** Where the click may sound: this computer's sound, or a MIDI output of the kit. */
export interface OutputChoice {
  readonly id: string;
  readonly name: string;
}

/** A take that can be opened: saved here, or bundled and played by the model player. */
export interface TakeChoice {
  readonly id: string;
  /** ISO 8601. */
  readonly recordedAt: string;
  readonly title: string;
  readonly bpm: Bpm | null;
  readonly sentence: string;
  /** Whose it is; absent where it is bundled. */
  readonly playerId?: string;
}

/** Whose takes may be listed. */
export interface PlayerChoice {
  readonly id: string;
  readonly name: string;
}

/** The takes before and after one; null where there is none. */
export interface Neighbours {
  readonly earlier: TakeChoice | null;
  readonly later: TakeChoice | null;
}

/** The one number being worked on. `value` is null before there is one. */
export interface LiveFigure {
  readonly value: number | null;
  readonly unit: string;
  /** Where what was played stands between the player's own heights, said before the number's unit; empty where unknown. */
  readonly heights: string;
  readonly words: string;
  readonly aim: string;
}
