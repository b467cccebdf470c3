import type { Listening } from '../grading/apart/listen-blind';
import type { Remedy } from '../grading/remedy/remedy';
import type { NumberAsked } from '../insight/strokes-behind';
import type { Apart } from '../insight/telling-apart';
import type { Reviewed } from '../take/reviewed';
import type { Guesses } from './guess-first';

/** The pictures there are of a take. */
export type PictureName =
  | 'levels by kind'
  | 'levels by place'
  | 'timing by place'
  | 'arrival'
  | 'grace notes'
  | 'soft strokes'
  | 'accents and soft'
  | 'variations'
  | 'tempo'
  | 'ceiling'
  | 'differences by place';

/** A remedy that was begun, and how it goes. */
export interface Treatment {
  readonly remedy: Remedy;
  /** What asked for it. */
  readonly before: Reviewed;
  /** Takes in a row that came to where its stop rule points. */
  readonly reached: number;
}

/** What is looked at in Review, of the take that is open. */
export interface Reviewing {
  /** The picture asked for; null: the one that shows the reason best. */
  readonly picture: PictureName | null;
  /** The variation it is of; null: the weakest, else the whole take. `whole take` where that was asked for. */
  readonly pictureOf: string | null;
  /** The number whose strokes are shown; null: none. */
  readonly strokes: NumberAsked | null;
  /** What tells the variations apart; null until the worker has said. */
  readonly apart: Apart | null;
  /** The round of listening that is on; null: none. */
  readonly listening: Listening | null;
  /** Another take of the same phrase, set beside the open one; and whether its levels are the bands of the pictures. */
  readonly beside: Reviewed | null;
  readonly bands: boolean;
  readonly treatment: Treatment | null;
  readonly guesses: Guesses;
  readonly guess: Guess;
  /** Ids of the takes that were opened since the page was: a guess is asked, and a remedy counted, once a take. */
  readonly seen: readonly string[];
}

/** *asked*: the sentence waits for an answer. */
type Guess =
  | { readonly kind: 'none' }
  | { readonly kind: 'asked' }
  | { readonly kind: 'made'; readonly choice: string | null; readonly right: boolean };

/** What a picture of no single variation is of. */
export const WHOLE_TAKE = 'whole take';

export const firstReviewing: Reviewing = {
  picture: null,
  pictureOf: null,
  strokes: null,
  apart: null,
  listening: null,
  beside: null,
  bands: false,
  treatment: null,
  guesses: { on: false, heard: 0, of: 0 },
  guess: { kind: 'none' },
  seen: [],
};
