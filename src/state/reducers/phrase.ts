import { InputError } from '../../errors';
import { checkedBpm } from '../../exercises/tempo';
import type { Reducers } from './reducers';
import type { State } from '../state';
import { leadOf } from '../selectors/library';
import { ledBy, rebuilt, chosen, chosenByName, inBarsOf, withPerformance, typedIn } from '../phrase-choice';
import { movedPace, paceOf } from '../pace';
import { ownInput, withChoice } from './chosen';

/** What is played: the phrase, its tempo and limits. */
export const phraseReducers = {
  phrase: (state, { name }) => named(ownInput(state), name),
  'type phrase': (state, { text }) => withChoice(ownInput(state), typedIn(state, text)),
  build: (state, { change }) => withChoice(ownInput(state), rebuilt(state, change)),
  bars: (state, { change }) => withChoice(ownInput(state), inBarsOf(state, change)),
  performance: (state, { change }) => withChoice(ownInput(state), withPerformance(state, change)),
  tempo: (state, { bpm }) => ({ ...ownInput(state), bpm: checkedBpm(bpm, 'Tempo'), problem: '' }),
  pace: (state, { change }) => ({ ...ownInput(state), pace: movedPace(state.pace, change), problem: '' }),
  cycles: (state, { cycles }) => ({
    ...state,
    phrase: { ...state.phrase, cycles: checkedCycles(cycles) },
    problem: '',
  }),
  limits: (state, { limits }) => ({ ...state, limits }),
  'phrase sheet': (state, { open }) => ({ ...state, sheetOpen: open }),
  sounding: (state, { on }) => ({ ...state, sounding: on }),
  'phrases saved': (state, { saved }) => ({ ...state, saved }),
  'phrase added': (state, { file }) => ({
    ...withChoice(ownInput(state), chosen(file.phrase, file.name)),
    ...paceOf(file.tempo ?? { bpm: file.bpm }),
    screen: 'phrase',
  }),
} satisfies Reducers;

/** A saved phrase, with its tempo, goes before a bundled one of the same name. */
function named(state: State, name: string): State {
  const own = state.saved.find((file) => file.name === name);
  if (own === undefined) {
    const choice = chosenByName(name, state.phrase.cycles, state.performance);
    return withChoice(state, ledBy(choice, leadOf(state.library)));
  }
  return { ...withChoice(state, chosen(own.phrase, name)), ...paceOf(own.tempo ?? { bpm: own.bpm }) };
}

function checkedCycles(cycles: number): number {
  if (!Number.isInteger(cycles) || cycles < 1 || cycles > 999) {
    throw new InputError('Cycles', 'must be a whole number from 1 to 999', cycles);
  }
  return cycles;
}
