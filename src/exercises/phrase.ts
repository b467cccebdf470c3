import { InputError } from '../errors';
import { handsText, parseBar, parseSticking, stickingText } from './sticking';
import type { Phrase, PhraseBar, Sticking } from './types';
import { accentsOff, accentWalk, filled, mirror, patternLength, rotations } from './variations';

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

export interface TypedPhrase {
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

/** A phrase the app brings along. `name` is what the command line and the page call it. */
export interface BundledPhrase {
  readonly name: string;
  readonly phrase: Phrase;
}

const FOUR = { beatsPerBar: 4, partialsPerBeat: 4, cycles: 8 } as const;
const PARTIALS = FOUR.beatsPerBar * FOUR.partialsPerBeat;
const [SINGLE_PARADIDDLE] = parseSticking('Rlrr Lrll');

/** Also called, by some books; books differ, so the sticking is the label. */
export const alsoCalled: Readonly<Record<string, string>> = {
  'RLLR LRRL': 'inward paradiddle, first inversion',
  'RRLR LLRL': 'reverse paradiddle, second inversion',
  'RLRL LRLR': 'outward or delayed paradiddle, third inversion',
};

/** The single paradiddle through its accent walk, rotations, accents off and mirror. */
export const bundledPhrases: readonly BundledPhrase[] = [
  bundled('Single paradiddle, accent walk', walkBars(SINGLE_PARADIDDLE, '')),
  bundled('Single paradiddle, accent walk, left lead', walkBars(mirror(SINGLE_PARADIDDLE), ', left lead')),
  bundled('Single paradiddle, accent walk, both leads', [
    ...walkBars(SINGLE_PARADIDDLE, ''),
    ...walkBars(mirror(SINGLE_PARADIDDLE), ', left lead'),
  ]),
  bundled('Single paradiddle, rotations', rotationBars(SINGLE_PARADIDDLE)),
  bundled('Single paradiddle, rotations, left lead', rotationBars(mirror(SINGLE_PARADIDDLE))),
  bundled('Single paradiddle, accents off', [plainBar(SINGLE_PARADIDDLE)]),
  bundled('Single paradiddle, accents off, then accent walk', [
    plainBar(SINGLE_PARADIDDLE),
    ...walkBars(SINGLE_PARADIDDLE, ''),
  ]),
];

/**
 * A bundled phrase by its name, whatever the case of its letters.
 * @throws InputError with the names there are
 */
export function phraseNamed(name: string): Phrase {
  const wanted = name.trim().toLowerCase();
  const found = bundledPhrases.find((bundledPhrase) => bundledPhrase.name.toLowerCase() === wanted);
  if (found === undefined) {
    throw new InputError(
      'phrase',
      'must be one of the bundled phrases',
      name,
      "'evenhand phrases' lists them",
    );
  }
  return found.phrase;
}

function bundled(name: string, bars: readonly PhraseBar[]): BundledPhrase {
  return { name, phrase: { title: name, ...FOUR, bars } };
}

function barOf(variation: string, pattern: Sticking): PhraseBar {
  return { variation, sticking: stickingText(filled(pattern, PARTIALS), [FOUR.partialsPerBeat]) };
}

function walkBars(pattern: Sticking, suffix: string): PhraseBar[] {
  return accentWalk(pattern, FOUR.partialsPerBeat).map((bar, index) =>
    barOf(`accent on ${index + 1}${suffix}`, bar),
  );
}

function rotationBars(pattern: Sticking): PhraseBar[] {
  return rotations(pattern).map((bar) => barOf(handsText(bar, [FOUR.partialsPerBeat]), bar));
}

function plainBar(pattern: Sticking): PhraseBar {
  return barOf('accents off', accentsOff(pattern));
}
