import { InputError } from '../errors';
import { rudiment, rudimentPhrase } from './rudiment-phrase';
import { rudiments } from './rudiments';
import { handsText, parseSticking, stickingText } from './sticking';
import type { Hand } from '../stroke';
import type { Phrase, PhraseBar, Sticking } from './types';
import { accentsOff, accentWalk, filled, mirror, rotations } from './variations';
import { nearest } from './nearest';

/** A phrase the app brings along. `name` is what the command line and the page call it. */
export interface BundledPhrase {
  readonly name: string;
  readonly group: BundledGroup;
  readonly phrase: Phrase;
}

/** In the order they are listed. A rudiment that is played weekly stands there and not in its family. */
export const bundledGroups = [
  'single paradiddle, varied',
  'rudiments played weekly',
  'rolls',
  'flams',
  'drags',
] as const;
type BundledGroup = (typeof bundledGroups)[number];

const FOUR = { beatsPerBar: 4, partialsPerBeat: 4, cycles: 8 } as const;
const PARTIALS = FOUR.beatsPerBar * FOUR.partialsPerBeat;
const [SINGLE_PARADIDDLE] = parseSticking('Rlrr Lrll');

const measured = rudiments.filter((row) => row.kind === 'measured');

/** Also called, by some books; books differ, so the sticking is the label. */
export const alsoCalled: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    measured.flatMap(({ number, name }) =>
      rudimentPhrase(number).bars.map((bar) => [bar.variation, name.toLowerCase()]),
    ),
  ),
  'RLLR LRRL': 'inward paradiddle, first inversion',
  'RRLR LLRL': 'reverse paradiddle, second inversion',
  'RLRL LRLR': 'outward or delayed paradiddle, third inversion',
};

/** The single paradiddle through its accent walk, rotations, accents off and mirror; then the rudiments, weekly first. */
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
  ...[...measured]
    .sort((a, b) => Number(b.weekly) - Number(a.weekly))
    .map(({ number, name, family, weekly }): BundledPhrase => ({
      name,
      group: weekly || family === 'paradiddle' ? 'rudiments played weekly' : `${family}s`,
      phrase: rudimentPhrase(number),
    })),
];

/**
 * A bundled phrase by its name, whatever the case of its letters; a rudiment also with the left hand leading.
 * @throws InputError with the names there are
 * @example phraseNamed('flam accent, left lead').bars[0].sticking // => {r}Lrl {l}Rlr {r}Lrl {l}Rlr
 */
export function phraseNamed(name: string): Phrase {
  const wanted = name.trim().toLowerCase();
  const found = bundledPhrases.find((bundledPhrase) => bundledPhrase.name.toLowerCase() === wanted);
  if (found === undefined) {
    const [, of] = /^(.*\S)\s*, left lead$/.exec(wanted) ?? [];
    if (of !== undefined && rudiment(of) !== undefined) return rudimentPhrase(of, 'left');
    // Says why, for the one rudiment that can't be a phrase.
    if (rudiment(name)?.kind === 'unmeasured') return rudimentPhrase(name);
    const meant = nearest(
      name,
      bundledPhrases.map((one) => one.name),
    );
    const hint = meant === undefined ? "'evenhand phrases' lists them" : `is "${meant}" meant?`;
    throw new InputError('phrase', 'must be one of the bundled phrases', name, hint);
  }
  return found.phrase;
}

const LEFT = ', left lead';

/** What a hand leads of the app's own, as they are listed: of two that differ in the lead alone the other's is left out. */
export function phrasesLedBy(hand: Hand): readonly BundledPhrase[] {
  const names = new Set(bundledPhrases.map(({ name }) => name));
  return bundledPhrases.flatMap((one) => {
    const { name, group } = one;
    if (hand === 'R') return name.endsWith(LEFT) ? [] : [one];
    if (names.has(`${name}${LEFT}`)) return [];
    return rudiment(name) === undefined ? [one] : [{ name, group, phrase: rudimentPhrase(name, 'left') }];
  });
}

/** The name of the same phrase led by that hand; itself where it is, or where there is no other. */
export function nameLedBy(name: string, hand: Hand): string {
  const wanted = hand === 'L' ? `${name}${LEFT}` : name.replace(LEFT, '');
  return bundledPhrases.some((one) => one.name === wanted) ? wanted : name;
}

function bundled(name: string, bars: readonly PhraseBar[]): BundledPhrase {
  return { name, group: 'single paradiddle, varied', phrase: { title: name, ...FOUR, bars } };
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
