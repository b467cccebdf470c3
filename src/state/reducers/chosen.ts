import { performanceOf } from '../../exercises/performance';
import { bundledPhrases } from '../../exercises/phrase';
import type { MidiStatus } from '../../midi/types';
import type { Take } from '../../sessions/types';
import type { State } from '../state';
import { chosen, type PhraseChoice } from '../phrase-choice';
import { paceOf } from '../pace';
import { takeAsInput } from '../selectors/input';

// What several areas do to the chosen phrase and its input.

/** A phrase or tempo of one's own is not what a bundled take plays: the input goes back to the kit. */
export function ownInput(state: State): State {
  return takeAsInput(state) === undefined ? state : { ...state, input: firstPort(state.midi) };
}

/** Name of the first port that is connected; empty where none is. */
export function firstPort(midi: MidiStatus): string {
  return midi.kind === 'on' ? (midi.inputs.find((port) => port.connected)?.name ?? '') : '';
}

/** Phrase, tempo and limits as a take has them. */
export function withTakeOf(state: State, take: Take): State {
  const { base } = performanceOf(take.phrase);
  const bundled = bundledPhrases.find(({ phrase }) => phrase.title === base.title);
  return {
    ...withChoice(state, chosen(take.phrase, bundled?.name ?? null)),
    ...paceOf(take.tempo),
    limits: take.limits,
  };
}

/** Nothing has been played of what is chosen now. */
export const nothingPlayed = { live: null, liveAtBeat: null, figureNow: null } as const;

/** Another phrase is chosen: what was shown of the one before is gone. */
export function withChoice(state: State, choice: PhraseChoice): State {
  const { phraseName, phrase, base, performance, feetError, dynError } = choice;
  const { typed, typedError, partialsPerBeat, beatsPerBar, pattern, build } = choice;
  return {
    ...state,
    phraseName,
    phrase,
    base,
    performance,
    feetError,
    dynError,
    typed,
    typedError,
    partialsPerBeat,
    beatsPerBar,
    pattern,
    build,
    ...nothingPlayed,
    problem: '',
  };
}
