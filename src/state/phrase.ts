import { InputError } from '../errors';
import { mannerOf } from '../exercises/performance';
import { bundledPhrases } from '../exercises/phrase';
import { checkedBpm } from '../exercises/tempo';
import type { Take } from '../sessions/types';
import { pacedAnew, paceOf } from './pace';
import {
  builtAnew,
  chosen,
  chosenByName,
  inBarsOf,
  manneredAnew,
  typedIn,
  type PhraseChoice,
} from './phrase-choice';
import { ownInput } from './bundled-input';
import type { PhraseSaid, Sitting } from './state';

/** The sitting after something was said of the phrase. */
export function phraseHeard(sitting: Sitting, said: PhraseSaid): Sitting {
  switch (said.kind) {
    case 'phrase':
      return named(ownInput(sitting), said.name);
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
        ...paceOf(said.file.tempo ?? { bpm: said.file.bpm }),
        screen: 'phrase',
      };
    case 'tempo':
      return { ...ownInput(sitting), bpm: checkedBpm(said.bpm, 'Tempo'), problem: '' };
    case 'pace':
      return { ...ownInput(sitting), pace: pacedAnew(sitting.pace, said.change), problem: '' };
    case 'manner':
      return withChoice(ownInput(sitting), manneredAnew(sitting, said.change));
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
  const { base } = mannerOf(take.phrase);
  const bundled = bundledPhrases.find(({ phrase }) => phrase.title === base.title);
  return {
    ...withChoice(sitting, chosen(take.phrase, bundled?.name ?? null)),
    ...paceOf(take.tempo),
    limits: take.limits,
  };
}

/** Nothing has been played of what is on the desk now. */
export const nothingPlayed = { live: null, liveAtBeat: null, figureNow: null } as const;

/** Another phrase on the desk: what was shown of the one before is gone. */
export function withChoice(sitting: Sitting, choice: PhraseChoice): Sitting {
  const { phraseName, phrase, base, manner, feetError, dynError } = choice;
  const { typed, typedError, partialsPerBeat, beatsPerBar, pattern, build } = choice;
  return {
    ...sitting,
    phraseName,
    phrase,
    base,
    manner,
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

/** A saved phrase, with its tempo, goes before a bundled one of the same name. */
function named(sitting: Sitting, name: string): Sitting {
  const own = sitting.saved.find((file) => file.name === name);
  if (own === undefined) {
    return withChoice(sitting, chosenByName(name, sitting.phrase.cycles, sitting.manner));
  }
  return { ...withChoice(sitting, chosen(own.phrase, name)), ...paceOf(own.tempo ?? { bpm: own.bpm }) };
}

function checkedCycles(cycles: number): number {
  if (!Number.isInteger(cycles) || cycles < 1 || cycles > 999) {
    throw new InputError('Cycles', 'must be a whole number from 1 to 999', cycles);
  }
  return cycles;
}
