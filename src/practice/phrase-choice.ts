import { InputError } from '../errors';
import { buildPhrase, type Lead, type Stage } from '../exercises/build-phrase';
import { gridOf } from '../exercises/grid';
import { phraseFromText, phraseNamed } from '../exercises/phrase';
import type { VariationRule } from '../exercises/rules';
import { parseSticking, stickingText } from '../exercises/sticking';
import type { Phrase } from '../exercises/types';
import { patternLength } from '../exercises/variations';

/** What is made of a pattern. */
export interface Build {
  /** Null: the phrase as it stands, nothing made of it. */
  readonly rule: VariationRule | null;
  readonly lead: Lead;
  readonly stage: Stage;
  readonly seed: number;
}

/** The phrase on the desk, how it came there, and the text it stands in. */
export interface PhraseChoice {
  /** Name of the bundled or saved phrase it is, or was made from; null where it was typed. */
  readonly phraseName: string | null;
  readonly phrase: Phrase;
  readonly typed: string;
  /** What is wrong with the typed text; empty where nothing is. */
  readonly typedError: string;
  readonly partialsPerBeat: number;
  readonly beatsPerBar: number;
  /** Sticking text of the pattern that variations are made of. */
  readonly pattern: string;
  readonly build: Build;
}

export const asItStands: Build = { rule: null, lead: 'right', stage: 'walk', seed: 1 };

/**
 * A phrase laid on the desk as it is.
 * @throws InputError where it cannot be laid out as a grid
 */
export function chosen(phrase: Phrase, name: string | null): PhraseChoice {
  gridOf(phrase, { bpm: 60 }, 0, phrase.bars.length);
  const { partialsPerBeat, beatsPerBar } = phrase;
  const partials = typeof partialsPerBeat === 'number' ? partialsPerBeat : partialsPerBeat[0];
  return {
    phraseName: name,
    phrase,
    typed: textOf(phrase),
    typedError: '',
    partialsPerBeat: partials,
    beatsPerBar,
    pattern: patternOf(phrase, partials),
    build: asItStands,
  };
}

/**
 * A bundled phrase by its name; its cycles are those of the phrase before it.
 * @throws InputError for a name that is none, or the one rudiment that MIDI cannot show
 */
export function chosenByName(name: string, cycles: number): PhraseChoice {
  return chosen({ ...phraseNamed(name), cycles }, name);
}

/** Typed text that is wrong stays in the field with its error; the phrase before it stays the one to play. */
export function typedIn(
  before: PhraseChoice,
  text: string,
  partialsPerBeat = before.partialsPerBeat,
): PhraseChoice {
  const typed = { ...before, typed: text, partialsPerBeat };
  try {
    const { beatsPerBar } = before;
    const phrase = phraseFromText(text, { beatsPerBar, partialsPerBeat, cycles: before.phrase.cycles });
    return { ...chosen(phrase, null), typed: text };
  } catch (error) {
    if (error instanceof InputError) return { ...typed, typedError: error.message };
    throw error;
  }
}

/**
 * The pattern varied anew. Back at "as it stands" a named phrase is itself again, a typed one its pattern.
 * @throws InputError where that makes no phrase (a pattern longer than its bar, say)
 */
export function builtAnew(before: PhraseChoice, change: Partial<Build>): PhraseChoice {
  const build = { ...before.build, ...change };
  const { rule, lead, stage, seed } = build;
  const { pattern, partialsPerBeat, beatsPerBar, phraseName, phrase } = before;
  if (rule === null) {
    if (phraseName !== null) return chosenByName(phraseName, phrase.cycles);
    return { ...typedIn({ ...before, build }, pattern), build };
  }
  const cycles = phrase.cycles;
  const subject = phraseName === null ? {} : { subject: phraseName.split(',')[0] };
  const made = buildPhrase({
    ...subject,
    pattern: parseSticking(pattern)[0],
    partialsPerBeat,
    beatsPerBar,
    rule,
    lead,
    stage,
    seed,
    cycles,
  });
  const { typed, phrase: laid } = chosen(made, phraseName);
  return { ...before, phrase: laid, typed, typedError: '', build };
}

/** Other bars, the same pattern: beats in a bar, partials in a beat. */
export function inBarsOf(
  before: PhraseChoice,
  change: { readonly partialsPerBeat?: number; readonly beatsPerBar?: number },
): PhraseChoice {
  const next = { ...before, ...change };
  return before.build.rule === null ? typedIn(next, before.typed) : builtAnew(next, {});
}

function textOf(phrase: Phrase): string {
  return phrase.bars.map((bar) => bar.sticking).join(' |\n');
}

/** The first bar's pattern, as sticking text. */
function patternOf(phrase: Phrase, partials: number): string {
  const [bar] = parseSticking(phrase.bars[0].sticking);
  return stickingText(bar.slice(0, patternLength(bar)), [partials]);
}
