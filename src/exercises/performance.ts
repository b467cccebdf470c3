import { InputError } from '../errors';
import { dynamicsOf } from './dynamics';
import { parseFeet } from './feet';
import type { Phrase, PhraseBar } from './types';
import { bundledVoicings, voiced } from './voicings';

/** How a phrase is played: on which surfaces, over which feet, how swung and shaped, and what comes before each bar. */
export interface Manner {
  /** Name of a bundled voicing; null: the phrase's own, or none. */
  readonly voicing: string | null;
  /** A feet line, empty for none; null: those of the phrase or of its voicing. */
  readonly feet: string | null;
  /** 0.50 (straight) to 0.70. */
  readonly swing: number;
  /** A dyn line on every bar, empty for none; null: the bars' own. */
  readonly dyn: string | null;
  /** Each bar first to listen to, or to count aloud, and then to play; null: the bars' own. */
  readonly first: 'listen' | 'say' | null;
}

export const STRAIGHT = 0.5;
export const asWritten: Manner = { voicing: null, feet: null, swing: STRAIGHT, dyn: null, first: null };

/**
 * A phrase played in a manner. Its title says so.
 * @throws InputError for no such voicing, and for feet or dynamics that don't parse: at the character
 */
export function mannered(base: Phrase, manner: Manner): Phrase {
  const toKit = manner.voicing === null ? base : voiced(base, manner.voicing);
  const { feet, swing, ...rest }: Phrase = {
    ...toKit,
    title: base.title + mannerTitle(manner),
    ...(manner.feet === null ? {} : { feet: manner.feet.trim() }),
    swing: manner.swing,
    bars: calledFirst(shaped(toKit.bars, manner.dyn), manner.first),
  };
  const phrase: Phrase = {
    ...rest,
    ...(feet === undefined || feet === '' ? {} : { feet }),
    ...(swing === undefined || swing === STRAIGHT ? {} : { swing }),
  };
  if (phrase.feet !== undefined) parseFeet(phrase.feet);
  if (manner.dyn !== null) phrase.bars.forEach((_, bar) => checkDyn(phrase, bar));
  return phrase;
}

/**
 * The phrase under the manner it is played in, and that manner: `mannered` makes the phrase of them again. What is not
 * one of our manners (a voicing of the player's own, roles in another order) stays in the phrase.
 */
export function mannerOf(phrase: Phrase): { readonly base: Phrase; readonly manner: Manner } {
  const { first, bars: answers } = firstOf(phrase.bars);
  const { dyn, bars } = dynOf(answers);
  const { swing = STRAIGHT, feet, voicing, ...plain } = { ...phrase, bars };
  const common = { swing, dyn, first };
  const own: Told = {
    base: { ...plain, ...(voicing === undefined ? {} : { voicing }) },
    manner: { ...common, voicing: null, feet: feet ?? null },
  };
  const told = bundledVoicings
    .filter((bundled) => isSame(bundled.voicing, voicing))
    .map(({ name }) => ({ name, onKit: voiced(plain, name) }))
    .filter(({ onKit }) => isSame(onKit.bars, bars))
    .map(({ name, onKit }): Told => ({
      base: plain,
      manner: { ...common, voicing: name, feet: feet === onKit.feet ? null : (feet ?? '') },
    }));
  // Two voicings may play the same bars: the one of the title, else the one that brings the feet.
  const isTitled = ({ manner }: Told): boolean => phrase.title.endsWith(mannerTitle(manner));
  const { base, manner } =
    told.find(isTitled) ?? told.find((one) => one.manner.feet === null) ?? told[0] ?? own;
  const said = mannerTitle(manner);
  const title = said !== '' && base.title.endsWith(said) ? base.title.slice(0, -said.length) : base.title;
  return { base: { ...base, title }, manner };
}

interface Told {
  readonly base: Phrase;
  readonly manner: Manner;
}

/** What a manner adds to a title, so that what is played differently is called differently. */
function mannerTitle({ voicing, feet, swing, dyn, first }: Manner): string {
  return [
    ...(voicing === null ? [] : [voicing]),
    ...(feet === null ? [] : [feet.trim() === '' ? 'without feet' : 'over feet']),
    ...(swing === STRAIGHT ? [] : [`swing ${Math.round(swing * 100)} %`]),
    ...(dyn === null ? [] : [dyn.trim() === '' ? 'without dynamics' : 'with dynamics']),
    ...(first === null ? [] : [first === 'listen' ? 'call and response' : 'counted first']),
  ]
    .map((part) => `, ${part}`)
    .join('');
}

function shaped(bars: readonly PhraseBar[], dyn: string | null): readonly PhraseBar[] {
  if (dyn === null) return bars;
  return bars.map((bar) => {
    const plain: Omit<PhraseBar, 'dyn'> & { dyn?: string } = { ...bar };
    delete plain.dyn;
    return dyn.trim() === '' ? plain : { ...plain, dyn: dyn.trim() };
  });
}

function calledFirst(bars: readonly PhraseBar[], role: Manner['first']): readonly PhraseBar[] {
  return role === null ? bars : bars.flatMap((bar) => [{ ...bar, role }, bar]);
}

/** The error of a line that stands on every bar: its column, without the bar. */
function checkDyn(phrase: Phrase, bar: number): void {
  try {
    dynamicsOf(phrase, bar);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(error.place.replace(/^bars\[\d+\]\.dyn: /, ''), error.rule, error.value);
  }
}

/** Bars in pairs, the first of each to listen to or to count aloud: the role, and the bars to play. */
function firstOf(bars: readonly PhraseBar[]): { first: Manner['first']; bars: readonly PhraseBar[] } {
  const [{ role }] = bars;
  const answers = bars.filter((_, index) => index % 2 === 1);
  const calls = role === 'listen' || role === 'say' ? role : null;
  if (calls === null || !isSame(calledFirst(answers, calls), bars)) return { first: null, bars };
  return { first: calls, bars: answers };
}

/** The dyn line that stands on every bar, and the bars without it. */
function dynOf(bars: readonly PhraseBar[]): { dyn: string | null; bars: readonly PhraseBar[] } {
  const [{ dyn }] = bars;
  if (dyn === undefined || !bars.every((bar) => bar.dyn === dyn)) return { dyn: null, bars };
  return { dyn, bars: shaped(bars, '') };
}

/** The same plain data, whatever the order of keys. */
function isSame(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b;
  const [left, right] = [Object.entries(a), Object.entries(b)];
  return (
    left.length === right.length &&
    left.every(([key, value]) => Object.hasOwn(b, key) && isSame(value, (b as Record<string, unknown>)[key]))
  );
}
