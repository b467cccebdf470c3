import { answered, listenBlind, type Listening } from '../grading/apart/listen-blind';
import { remedyOf, isReached, type Remedy } from '../grading/remedy/remedy';
import type { Report } from '../grading/types';
import type { Take } from '../sessions/types';
import type { Reviewed } from '../take/reviewed';
import { blindBarsOfTwo } from '../insight/compare/side-by-side';
import { isRight, type Guesses } from './guess-first';
import type { NumberAsked } from '../insight/strokes-behind';
import { blindBarsOf, type Apart } from '../insight/telling-apart';

/** The pictures there are of a take. */
export type PictureName =
  | 'levels by kind'
  | 'levels by place'
  | 'timing by place'
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
  /** Ids of the takes that were opened in this sitting: a guess is asked, and a remedy counted, once a take. */
  readonly seen: readonly string[];
}

/** *asked*: the sentence waits for an answer. */
type Guess =
  | { readonly kind: 'none' }
  | { readonly kind: 'asked' }
  | { readonly kind: 'made'; readonly choice: string | null; readonly right: boolean };

export type ReviewSaid =
  | { readonly kind: 'picture'; readonly name: PictureName }
  | { readonly kind: 'picture of'; readonly variation: string }
  | { readonly kind: 'strokes'; readonly asked: NumberAsked | null }
  | { readonly kind: 'apart'; readonly takeId: string; readonly apart: Apart }
  | { readonly kind: 'beside'; readonly beside: Reviewed | null }
  | { readonly kind: 'bands'; readonly on: boolean }
  | { readonly kind: 'listen'; readonly of: 'variations' | 'takes'; readonly seed: number }
  | { readonly kind: 'blind answer'; readonly answer: string }
  | { readonly kind: 'stop listening' }
  | { readonly kind: 'guess first'; readonly on: boolean }
  | { readonly kind: 'guesses'; readonly guesses: Guesses }
  | { readonly kind: 'guess'; readonly choice: string | null }
  | { readonly kind: 'skip guess' };

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

/** Review after something was said in it. */
export function reviewHeard(reviewing: Reviewing, said: ReviewSaid, reviewed: Reviewed | null): Reviewing {
  switch (said.kind) {
    case 'picture':
      return { ...reviewing, picture: said.name };
    case 'picture of':
      return { ...reviewing, pictureOf: said.variation };
    case 'strokes':
      return { ...reviewing, strokes: said.asked };
    case 'apart':
      return reviewed?.take.id === said.takeId ? { ...reviewing, apart: said.apart } : reviewing;
    case 'beside':
      return reviewed === null
        ? reviewing
        : { ...reviewing, beside: said.beside, bands: false, listening: null };
    case 'bands':
      return { ...reviewing, bands: said.on, picture: said.on ? 'levels by place' : reviewing.picture };
    case 'listen':
      return reviewed === null
        ? reviewing
        : { ...reviewing, listening: listenBlind(barsToTell(reviewing, said.of, reviewed), said.seed) };
    case 'blind answer':
      return reviewing.listening === null
        ? reviewing
        : { ...reviewing, listening: answered(reviewing.listening, said.answer) };
    case 'stop listening':
      return { ...reviewing, listening: null };
    case 'guess first':
      return { ...reviewing, guesses: { ...reviewing.guesses, on: said.on } };
    case 'guesses':
      return { ...reviewing, guesses: said.guesses };
    case 'guess':
      return reviewed === null || reviewing.guess.kind !== 'asked'
        ? reviewing
        : guessed(reviewing, said.choice, reviewed.report);
    case 'skip guess':
      return { ...reviewing, guess: { kind: 'none' } };
  }
}

function barsToTell({ beside }: Reviewing, of: 'variations' | 'takes', reviewed: Reviewed) {
  return of === 'takes' && beside !== null
    ? blindBarsOfTwo(reviewed, beside)
    : blindBarsOf(reviewed.report, reviewed.take);
}

function guessed(reviewing: Reviewing, choice: string | null, report: Report): Reviewing {
  const right = isRight(report, choice);
  const { guesses } = reviewing;
  return {
    ...reviewing,
    guess: { kind: 'made', choice, right },
    guesses: { ...guesses, heard: guesses.heard + Number(right), of: guesses.of + 1 },
  };
}

/** The remedy of a take; undefined where nothing is out, or nothing could be judged. */
export function remedyFor({ take, report }: Reviewed): Remedy | undefined {
  if (!report.fits) return undefined;
  const { tempo } = take;
  return remedyOf(report, take.phrase, 'bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm);
}

/** What the one button of Review does. */
type NextStep =
  | { readonly kind: 'remedy'; readonly remedy: Remedy; readonly before: Reviewed }
  /** The same remedy once more: its stop rule is not reached, or not often enough. */
  | { readonly kind: 'remedy again'; readonly treatment: Treatment }
  /** The remedy did its work: back to the take that asked for it. */
  | { readonly kind: 'back'; readonly treatment: Treatment }
  | { readonly kind: 'again' };

/** What is to be played next, of the take that is open. */
export function nextStep(reviewing: Reviewing, reviewed: Reviewed): NextStep {
  const { treatment } = reviewing;
  if (treatment !== null && isOfRemedy(treatment, reviewed)) {
    return treatment.reached >= treatment.remedy.stop.takes
      ? { kind: 'back', treatment }
      : { kind: 'remedy again', treatment };
  }
  const remedy = remedyFor(reviewed);
  return remedy === undefined ? { kind: 'again' } : { kind: 'remedy', remedy, before: reviewed };
}

/** True where the take is one of the remedy, and not the one that asked for it. */
export function isOfRemedy({ remedy, before }: Treatment, { take }: Reviewed): boolean {
  const same = (a: Take['phrase'], b: Take['phrase']): boolean =>
    a.title === b.title &&
    a.bars.length === b.bars.length &&
    a.bars.every(({ sticking }, index) => sticking === b.bars[index].sticking);
  return take.id !== before.take.id && same(take.phrase, remedy.phrase);
}

/** Review of another take: what was looked at of the one before is gone, a remedy that was begun is not. */
export function reviewAnew(reviewing: Reviewing, reviewed: Reviewed): Reviewing {
  const { treatment, guesses, seen } = reviewing;
  const { report, take } = reviewed;
  const isFirst = !seen.includes(take.id);
  const ofRemedy = treatment !== null && isOfRemedy(treatment, reviewed);
  return {
    ...firstReviewing,
    guesses,
    seen: isFirst ? [...seen, take.id] : seen,
    guess:
      guesses.on && isFirst && report.weakest !== null && report.variations.length > 1
        ? { kind: 'asked' }
        : { kind: 'none' },
    treatment: ofRemedy && isFirst ? { ...treatment, reached: reachedAfter(treatment, report) } : treatment,
  };
}

function reachedAfter({ remedy, reached }: Treatment, report: Report): number {
  return isReached(remedy.stop, report) === true ? reached + 1 : 0;
}
