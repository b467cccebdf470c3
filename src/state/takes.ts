import type { Grid } from '../exercises/types';
import type { Take } from '../sessions/types';
import type { Bpm } from '../units';

/** A take kept in this browser, as the list shows it. */
export interface KeptTake {
  readonly id: string;
  readonly recordedAt: string;
  readonly title: string;
  readonly bpm: Bpm | null;
  readonly sentence: string;
  /** Whose it is. */
  readonly playerId: string;
}

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
