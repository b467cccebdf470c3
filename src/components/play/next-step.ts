import type { MidiStatus } from '../../midi/types';
import type { Strikes } from '../../take/types';
import { midiWords, strikeWords } from '../shared/midi-words';
import type { InputChoice } from '../shared/types';

/** The one thing to do before a take can begin. */
export interface NextStep {
  readonly about: 'phrase' | 'midi' | 'input' | 'hands';
  /** Said large, where the number will stand. */
  readonly says: string;
  /** What to know of it; empty where nothing is. */
  readonly todo: string;
  /** Label of the button that connects, or null where no button helps. */
  readonly ask: string | null;
}

/** What decides which step is next. */
interface Begun {
  readonly hasPhrase: boolean;
  /** What is wrong with a phrase that was typed; empty where nothing is. */
  readonly phraseError: string;
  readonly midi: MidiStatus;
  readonly inputs: readonly InputChoice[];
  readonly chosenInput: string;
  /** Null where none are asked for. */
  readonly strikes: Strikes | null;
}

/**
 * What to do next before a take: phrase, cable, input, right hand, left hand, in this order. Strikes are asked for only
 * where a port is open that can hear them.
 * @returns undefined where a take can begin
 */
export function nextStep({
  hasPhrase,
  phraseError,
  midi,
  inputs,
  chosenInput,
  strikes,
}: Begun): NextStep | undefined {
  if (!hasPhrase) return { about: 'phrase', says: 'Choose a phrase.', todo: '', ask: null };
  if (phraseError !== '') {
    return { about: 'phrase', says: 'Mend what you typed, on Phrase.', todo: phraseError, ask: null };
  }
  const chosen = inputs.find(({ id }) => id === chosenInput);
  if (chosen?.kind === 'take') return undefined;
  if (!isThere(midi)) {
    const { says, todo, ask } = midiWords(midi);
    const off = { says: 'Plug in your kit or pad.', todo: WITHOUT };
    return { about: 'midi', ...(midi.kind === 'off' ? off : { says, todo }), ask };
  }
  if (chosen === undefined) return { about: 'input', says: 'Choose your input.', todo: '', ask: null };
  if (strikes === null) return undefined;
  const { says, done } = strikeWords(strikes);
  return done
    ? undefined
    : { about: 'hands', says, todo: 'So that it is known which pad is whose.', ask: null };
}

const WITHOUT = 'To look around without one, choose a model player’s take as the input.';

/** Whether a port is open. One that is out for the moment leaves what was struck as it is. */
const isThere = (midi: MidiStatus): boolean => midi.kind === 'on' && midi.inputs.length > 0;
