import { InputError } from '../errors';
import { parseBar, parseSticking, stickingText } from './sticking';
import type { Phrase, PhraseBar, Sticking } from './types';
import { patternLength } from './variations';

export { alsoCalled, bundledPhrases, nameLedBy, phrasesLedBy, phraseNamed } from './bundled-phrases';

/** Partials of each beat of a bar: one number for all, or one a beat. */
export function partialsOfBeats(phrase: Phrase, bar: PhraseBar): readonly number[] {
  const beats = bar.beatsPerBar ?? phrase.beatsPerBar;
  const partials = bar.partialsPerBeat ?? phrase.partialsPerBeat;
  if (typeof partials === 'number') return Array.from({ length: beats }, () => partials);
  if (partials.length !== beats) {
    throw new InputError(
      'partialsPerBeat',
      `must have one number a beat: ${partials.length} in a bar of ${beats} beats`,
    );
  }
  return partials;
}

/**
 * The sticking of a bar of a phrase, checked against the bar's length.
 * @throws InputError at `bars[index].sticking`
 */
export function barSticking(phrase: Phrase, index: number): Sticking {
  const bar = phrase.bars[index];
  try {
    const beats = partialsOfBeats(phrase, bar);
    return parseBar(
      bar.sticking,
      beats.reduce((sum, partials) => sum + partials, 0),
    );
  } catch (error) {
    if (error instanceof InputError) {
      const key = error.place === 'partialsPerBeat' ? '' : '.sticking';
      throw error.within(`bars[${index}]${key}`);
    }
    throw error;
  }
}

interface TypedPhrase {
  readonly title?: string;
  readonly beatsPerBar: number;
  readonly partialsPerBeat: number;
  readonly cycles: number;
}

/**
 * A phrase from sticking text typed by a player: a variation a bar, named by its pattern, so that a bar written twice
 * is one variation.
 * @throws InputError with line and column for a wrong letter, and with the bar's number for a short or long bar
 */
export function phraseFromText(text: string, typed: TypedPhrase): Phrase {
  const partials = typed.beatsPerBar * typed.partialsPerBeat;
  const bars = parseSticking(text).map((bar, index): PhraseBar => {
    const sticking = stickingText(bar, [typed.partialsPerBeat]);
    try {
      parseBar(sticking, partials);
    } catch (error) {
      throw error instanceof InputError ? error.within(`bar ${index + 1}`) : error;
    }
    return { variation: stickingText(bar.slice(0, patternLength(bar)), [typed.partialsPerBeat]), sticking };
  });
  return {
    title: typed.title ?? bars.map((bar) => bar.variation).join(' | '),
    beatsPerBar: typed.beatsPerBar,
    partialsPerBeat: typed.partialsPerBeat,
    cycles: typed.cycles,
    bars,
  };
}
