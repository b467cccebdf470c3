import { InputError } from '../errors';
import { dynamicsOf } from './dynamics';
import { parseFeet } from './feet';
import type { Phrase, PhraseBar } from './types';
import { bundledVoicings, voiced } from './voicings';

/** How a phrase is played: on which surfaces, over which feet, how swung and shaped, and what comes before each bar. */
export interface Performance {
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
export const asWritten: Performance = { voicing: null, feet: null, swing: STRAIGHT, dyn: null, first: null };

/**
 * A phrase played with a performance. Its title says so.
 * @throws InputError for no such voicing, and for feet or dynamics that don't parse: at the character
 */
export function performed(base: Phrase, performance: Performance): Phrase {
  const toKit = performance.voicing === null ? base : voiced(base, performance.voicing);
  const { feet, swing, ...rest }: Phrase = {
    ...toKit,
    title: base.title + performanceTitle(performance),
    ...(performance.feet === null ? {} : { feet: performance.feet.trim() }),
    swing: performance.swing,
    bars: calledFirst(shaped(toKit.bars, performance.dyn), performance.first),
  };
  const phrase: Phrase = {
    ...rest,
    ...(feet === undefined || feet === '' ? {} : { feet }),
    ...(swing === undefined || swing === STRAIGHT ? {} : { swing }),
  };
  if (phrase.feet !== undefined) parseFeet(phrase.feet);
  if (performance.dyn !== null) phrase.bars.forEach((_, bar) => checkDyn(phrase, bar));
  return phrase;
}

/**
 * The phrase under its performance, and that performance: `performed` makes the phrase of them again. What is not
 * one of ours (a voicing of the player's own, roles in another order) stays in the phrase.
 */
export function performanceOf(phrase: Phrase): { readonly base: Phrase; readonly performance: Performance } {
  const { first, bars: answers } = firstOf(phrase.bars);
  const { dyn, bars } = dynOf(answers);
  const { swing = STRAIGHT, feet, voicing, ...plain } = { ...phrase, bars };
  const common = { swing, dyn, first };
  const own: Split = {
    base: { ...plain, ...(voicing === undefined ? {} : { voicing }) },
    performance: { ...common, voicing: null, feet: feet ?? null },
  };
  const splits = bundledVoicings
    .filter((bundled) => isSame(bundled.voicing, voicing))
    .map(({ name }) => ({ name, onKit: voiced(plain, name) }))
    .filter(({ onKit }) => isSame(onKit.bars, bars))
    .map(({ name, onKit }): Split => ({
      base: plain,
      performance: { ...common, voicing: name, feet: feet === onKit.feet ? null : (feet ?? '') },
    }));
  // Two voicings may play the same bars: the one of the title, else the one that brings the feet.
  const isTitled = ({ performance }: Split): boolean => phrase.title.endsWith(performanceTitle(performance));
  const { base, performance } =
    splits.find(isTitled) ?? splits.find((one) => one.performance.feet === null) ?? splits[0] ?? own;
  const suffix = performanceTitle(performance);
  const title =
    suffix !== '' && base.title.endsWith(suffix) ? base.title.slice(0, -suffix.length) : base.title;
  return { base: { ...base, title }, performance };
}

interface Split {
  readonly base: Phrase;
  readonly performance: Performance;
}

/** What a performance adds to a title, so that what is played differently is called differently. */
function performanceTitle({ voicing, feet, swing, dyn, first }: Performance): string {
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

function calledFirst(bars: readonly PhraseBar[], role: Performance['first']): readonly PhraseBar[] {
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
function firstOf(bars: readonly PhraseBar[]): { first: Performance['first']; bars: readonly PhraseBar[] } {
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
