import { exercisesOf } from '../sessions/week/exercises';
import { phraseKeyOf } from '../sessions/take-record';
import { climbHeld } from './climb';
import type { OpenWork, State, Theirs } from './state';

/** All of it, each once: a key that is missing doesn't compile. */
const theirs: Readonly<Record<Theirs, true>> = {
  phraseName: true,
  phrase: true,
  base: true,
  performance: true,
  feetError: true,
  dynError: true,
  typed: true,
  typedError: true,
  partialsPerBeat: true,
  beatsPerBar: true,
  pattern: true,
  build: true,
  bpm: true,
  pace: true,
  limits: true,
  last: true,
  climb: true,
  rest: true,
  reviewed: true,
  reviewing: true,
  note: true,
  history: true,
};

export function openWorkOf(state: State): OpenWork {
  const { climb, today } = state;
  const { draft, draftAt, draftOf, sheetId, warmedUp } = state.library;
  return {
    // Nothing begins by itself while another plays.
    page: { ...theirsOf(state), climb: climb && climbHeld(climb) },
    library: { draft, draftAt, draftOf, sheetId, warmedUp },
    clock: today.clock,
  };
}

/** The page with what somebody has open. How many guesses were right is kept for the page, whoever guessed. */
export function withOpenWork(state: State, { page, library, clock }: OpenWork): State {
  return {
    ...state,
    ...page,
    reviewing: { ...page.reviewing, guesses: state.reviewing.guesses },
    library: { ...state.library, ...library },
    today: { ...state.today, clock },
  };
}

/** Whether the chosen phrase came from a take or a week sheet of the player in turn: then it is theirs alone. */
export function isPhraseTheirs(state: State): boolean {
  const { phraseName, phrase, reviewed, reviewing, last, library } = state;
  if (phraseName !== null) return false;
  const sources = [
    reviewed?.take.phrase,
    last?.take.phrase,
    reviewing.treatment?.remedy.phrase,
    reviewing.treatment?.before.take.phrase,
    ...library.sheets.flatMap(({ sheet }) => exercisesOf(sheet).map((one) => one.phrase)),
  ];
  const key = phraseKeyOf(phrase);
  return sources.some((one) => one !== undefined && phraseKeyOf(one) === key);
}

function theirsOf(state: State): Pick<State, Theirs> {
  const entries = Object.keys(theirs).map((key) => [key, state[key as Theirs]] as const);
  return Object.fromEntries(entries) as Pick<State, Theirs>;
}
