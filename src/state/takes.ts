import type { Grid } from '../exercises/types';
import type { Take } from '../sessions/types';
import type { Bpm } from '../units';

/** Whose takes are listed: theirs whose turn it is, everybody's, those that are nobody's yet; or a player's or the teacher's, by id. */
export const OF_TURN = '';
export const OF_ALL = 'all';
export const OF_NOBODY = 'nobody';

/** What of the takes that are kept is listed on Takes. */
export interface TakesView {
  readonly of: string;
  /** Of one phrase; empty for all. */
  readonly phraseKey: string;
  /** From 0. */
  readonly page: number;
}

export const firstTakesView: TakesView = { of: OF_TURN, phraseKey: '', page: 0 };

/** A take that comes with the app, played by the model player; `take` is null until it was asked for. */
export interface BundledTake {
  readonly name: string;
  /** What is to be seen in it, in words. */
  readonly words: string;
  readonly title: string;
  readonly bpm: Bpm;
  readonly sentence: string;
  readonly take: Take | null;
}

/** What is being played. */
export interface Running {
  readonly grid: Grid;
  readonly takeId: string;
  /** Which of its bars are bare. */
  readonly bare: readonly boolean[];
}

/** The take that was just played: kept, or thrown away and still to be put back. */
export interface LastTake {
  readonly take: Take;
  readonly sentence: string;
  readonly kept: boolean;
}

const TAKE_INPUT = 'take:';
export const inputOfTake = (name: string): string => `${TAKE_INPUT}${name}`;
/** Name of the bundled take that an input is, undefined for a MIDI port. */
export const bundledNameOf = (input: string): string | undefined =>
  input.startsWith(TAKE_INPUT) ? input.slice(TAKE_INPUT.length) : undefined;
