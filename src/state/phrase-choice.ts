import { InputError } from '../errors';
import { buildPhrase, type Lead, type Stage } from '../exercises/build-phrase';
import { gridOf } from '../exercises/grid';
import { asWritten, performed, performanceOf, type Performance } from '../exercises/performance';
import { nameLedBy, phraseFromText, phraseNamed } from '../exercises/phrase';
import type { Hand } from '../stroke';
import { rudiment } from '../exercises/rudiment-phrase';
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

/** The chosen phrase, how it was come by, and the text it stands in. */
export interface PhraseChoice {
  /** Name of the bundled or saved phrase it is, or was made from; null where it was typed. */
  readonly phraseName: string | null;
  /** What is played: the bars in their performance. */
  readonly phrase: Phrase;
  /** The same before its performance: what the text in the field says. */
  readonly base: Phrase;
  readonly performance: Performance;
  /** What is wrong with the feet and with the dynamics as they were typed; empty where nothing is. */
  readonly feetError: string;
  readonly dynError: string;
  readonly typed: string;
  /** What is wrong with the typed text; empty where nothing is. */
  readonly typedError: string;
  readonly partialsPerBeat: number;
  readonly beatsPerBar: number;
  /** Sticking text of the pattern that variations are made of. */
  readonly pattern: string;
  readonly build: Build;
}

export const asGiven: Build = { rule: null, lead: 'right', stage: 'walk', seed: 1 };

/** True where a phrase can be led by the other hand as it stands. */
export const hasLeads = (name: string | null): boolean => name !== null && rudiment(name) !== undefined;

/**
 * A phrase taken up as it is, with the performance it has.
 * @throws InputError where it cannot be laid out as a grid
 */
export function chosen(phrase: Phrase, name: string | null): PhraseChoice {
  const { base, performance } = performanceOf(phrase);
  return { ...laid(base, name), ...checked(phrase), performance };
}

/**
 * A bundled phrase by its name; its cycles and its performance are those of the phrase before it.
 * @throws InputError for a name that is none, or the one rudiment that MIDI cannot show
 */
export function chosenByName(name: string, cycles: number, performance = asWritten): PhraseChoice {
  return inPerformance(laid({ ...phraseNamed(name), cycles }, name), performance);
}

/**
 * The same led by a player's own hand, where it is a rudiment that either can lead; and what is made of it begins with
 * that hand.
 */
export function ledBy(choice: PhraseChoice, hand: Hand): PhraseChoice {
  if (hand === 'R') return choice;
  const lead: Lead = 'left';
  return hasLeads(choice.phraseName)
    ? rebuilt(choice, { lead })
    : { ...choice, build: { ...choice.build, lead } };
}

/** A phrase of the app's own, as a player of that hand meets it; any other as it stands. */
export function ofHand(choice: PhraseChoice, hand: Hand): PhraseChoice {
  const { phraseName, build, phrase, performance } = choice;
  if (phraseName === null || build.rule !== null) return choice;
  if (hasLeads(phraseName)) return rebuilt(choice, { lead: hand === 'L' ? 'left' : 'right' });
  const name = nameLedBy(phraseName, hand);
  return name === phraseName ? choice : ledBy(chosenByName(name, phrase.cycles, performance), hand);
}

/** What is wrong with what was typed last; empty where nothing is. Until it is mended nothing older is played in its place. */
export const choiceError = ({
  typedError,
  feetError,
  dynError,
}: Pick<PhraseChoice, 'typedError' | 'feetError' | 'dynError'>): string =>
  [typedError, feetError, dynError].find((error) => error !== '') ?? '';

/** Typed text that is wrong stays in the field with its error; the phrase before it stays the one to play. */
export function typedIn(
  before: PhraseChoice,
  text: string,
  partialsPerBeat = before.partialsPerBeat,
): PhraseChoice {
  const typed = { ...before, typed: text, partialsPerBeat };
  try {
    const { beatsPerBar, performance } = before;
    const base = phraseFromText(text, { beatsPerBar, partialsPerBeat, cycles: before.phrase.cycles });
    return inPerformance({ ...laid(base, null), typed: text }, performance);
  } catch (error) {
    if (error instanceof InputError) return { ...typed, typedError: error.message };
    throw error;
  }
}

/**
 * The pattern varied anew. Back at "as it stands" a named phrase is itself again (a rudiment by either hand), a typed
 * one its pattern.
 * @throws InputError where that makes no phrase (a pattern longer than its bar, say)
 */
export function rebuilt(before: PhraseChoice, change: Partial<Build>): PhraseChoice {
  const build = { ...before.build, ...change };
  const { rule, lead, stage, seed } = build;
  const { pattern, partialsPerBeat, beatsPerBar, phraseName, phrase, performance } = before;
  const { cycles } = phrase;
  if (rule === null) {
    if (phraseName === null) return { ...typedIn({ ...before, build }, pattern), build };
    const led = hasLeads(phraseName) && lead === 'left' ? `${phraseName}, left lead` : phraseName;
    return {
      ...chosenByName(led, cycles, performance),
      phraseName,
      build: { ...build, lead: oneHand(lead) },
    };
  }
  const subject = phraseName === null ? {} : { subject: phraseName.split(',')[0] };
  const base = buildPhrase({
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
  const made = inPerformance(laid(base, phraseName), performance);
  return { ...made, partialsPerBeat, beatsPerBar, pattern, build };
}

/**
 * The same bars in another performance. Feet and dynamics that are wrong stay in their fields with their errors; the phrase
 * before them stays the one to play.
 */
export function withPerformance(before: PhraseChoice, change: Partial<Performance>): PhraseChoice {
  return inPerformance(before, { ...before.performance, ...change }, before.phrase);
}

/** Other bars, the same pattern: beats in a bar, partials in a beat. */
export function inBarsOf(
  before: PhraseChoice,
  change: { readonly partialsPerBeat?: number; readonly beatsPerBar?: number },
): PhraseChoice {
  const next = { ...before, ...change };
  return before.build.rule === null ? typedIn(next, before.typed) : rebuilt(next, {});
}

/** Bars that are chosen, nothing done to them yet. */
function laid(base: Phrase, name: string | null): PhraseChoice {
  const { partialsPerBeat, beatsPerBar } = base;
  const partials = typeof partialsPerBeat === 'number' ? partialsPerBeat : partialsPerBeat[0];
  return {
    ...checked(base),
    phraseName: name,
    base,
    performance: asWritten,
    feetError: '',
    dynError: '',
    typed: textOf(base),
    typedError: '',
    partialsPerBeat: partials,
    beatsPerBar,
    pattern: patternOf(base, partials),
    build: asGiven,
  };
}

/** A phrase that can be laid out as a grid. @throws InputError for one that can't */
function checked(phrase: Phrase): { readonly phrase: Phrase } {
  gridOf(phrase, { bpm: 60 }, 0, phrase.bars.length);
  return { phrase };
}

/** @param instead what is played while a line of the performance is wrong; default: the bars without that line */
function inPerformance(choice: PhraseChoice, performance: Performance, instead?: Phrase): PhraseChoice {
  const base = { ...choice.base, cycles: choice.phrase.cycles };
  const wrong = (lines: Partial<Performance>): string => {
    try {
      performed(base, { ...asWritten, ...lines });
      return '';
    } catch (error) {
      if (error instanceof InputError) return error.message;
      throw error;
    }
  };
  const feetError = wrong({ feet: performance.feet });
  const dynError = wrong({ dyn: performance.dyn });
  const sound = {
    ...performance,
    ...(feetError === '' ? {} : { feet: null }),
    ...(dynError === '' ? {} : { dyn: null }),
  };
  const isSound = feetError === '' && dynError === '';
  const { phrase } =
    !isSound && instead !== undefined ? { phrase: instead } : checked(performed(base, sound));
  return { ...choice, base, phrase, performance, feetError, dynError };
}

const oneHand = (lead: Lead): Lead => (lead === 'left' ? 'left' : 'right');

function textOf(phrase: Phrase): string {
  return phrase.bars.map((bar) => bar.sticking).join(' |\n');
}

/** The first bar's pattern, as sticking text. */
function patternOf(phrase: Phrase, partials: number): string {
  const [bar] = parseSticking(phrase.bars[0].sticking);
  return stickingText(bar.slice(0, patternLength(bar)), [partials]);
}
