import { InputError } from '../../errors';
import { bundledPhrases } from '../../exercises/phrase';
import { checkedBpm } from '../../exercises/tempo';
import type { Take } from '../../sessions/types';
import { builtAnew, chosen, chosenByName, inBarsOf, typedIn, type PhraseChoice } from '../phrase-choice';
import { ownInput } from './bundled-input';
import type { PhraseSaid, Sitting } from './state';

/** The sitting after something was said of the phrase. */
export function phraseHeard(sitting: Sitting, said: PhraseSaid): Sitting {
  switch (said.kind) {
    case 'phrase':
      return withChoice(ownInput(sitting), namedChoice(sitting, said.name));
    case 'typed':
      return withChoice(ownInput(sitting), typedIn(sitting, said.text));
    case 'build':
      return withChoice(ownInput(sitting), builtAnew(sitting, said.change));
    case 'bars':
      return withChoice(ownInput(sitting), inBarsOf(sitting, said.change));
    case 'saved':
      return { ...sitting, saved: said.saved };
    case 'open phrase':
      return {
        ...withChoice(ownInput(sitting), chosen(said.file.phrase, said.file.name)),
        bpm: said.file.bpm,
        screen: 'phrase',
      };
    case 'tempo':
      return { ...ownInput(sitting), bpm: checkedBpm(said.bpm, 'Tempo'), problem: '' };
    case 'cycles':
      return { ...sitting, phrase: { ...sitting.phrase, cycles: checkedCycles(said.cycles) }, problem: '' };
    case 'limits':
      return { ...sitting, limits: said.limits };
    case 'hearing':
      return { ...sitting, hearing: said.hearing };
    case 'sheet':
      return { ...sitting, sheetOpen: said.open };
  }
}

/** Phrase, tempo and limits as a take has them. */
export function withTakeOf(sitting: Sitting, take: Take): Sitting {
  const bundled = bundledPhrases.find(({ phrase }) => phrase.title === take.phrase.title);
  return {
    ...withChoice(sitting, chosen(take.phrase, bundled?.name ?? null)),
    bpm: 'bpm' in take.tempo ? take.tempo.bpm : sitting.bpm,
    limits: take.limits,
  };
}

/** Another phrase on the desk: what was shown of the one before is gone. */
export function withChoice(sitting: Sitting, choice: PhraseChoice): Sitting {
  const { phraseName, phrase, typed, typedError, partialsPerBeat, beatsPerBar, pattern, build } = choice;
  return {
    ...sitting,
    phraseName,
    phrase,
    typed,
    typedError,
    partialsPerBeat,
    beatsPerBar,
    pattern,
    build,
    live: null,
    problem: '',
  };
}

/** A saved phrase goes before a bundled one of the same name. */
function namedChoice({ saved, phrase }: Sitting, name: string): PhraseChoice {
  const own = saved.find((file) => file.name === name);
  return own === undefined ? chosenByName(name, phrase.cycles) : chosen(own.phrase, name);
}

function checkedCycles(cycles: number): number {
  if (!Number.isInteger(cycles) || cycles < 1 || cycles > 999) {
    throw new InputError('Cycles', 'must be a whole number from 1 to 999', cycles);
  }
  return cycles;
}
