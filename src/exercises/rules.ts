import { handsText, stickingText } from './sticking';
import type { Sticking } from './types';
import {
  accentOn,
  accentsOff,
  displacements,
  filled,
  oneHand,
  rotations,
  runningBars,
  struckPartials,
} from './variations';

/** How bars are made from a pattern. */
export const variationRules = [
  'as written',
  'accent walk',
  'rotations',
  'displacements',
  'accents off',
  'right hand alone',
  'left hand alone',
  'accents by rotations',
  'another subdivision',
] as const;
export type VariationRule = (typeof variationRules)[number];

/** A variation: a bar with its name, or several where the pattern runs on over the bar line. */
export type Variation = readonly NamedBar[];

interface NamedBar {
  readonly name: string;
  readonly sticking: Sticking;
}

/**
 * The variations a rule makes. A pattern that doesn't divide the bar starts anew with each bar, save `as written` and
 * `another subdivision`, where it runs on until it comes round.
 * Names: the sticking first; `accent on 1` counts partials of the beat from 1.
 * @param suffix what tells these from the same rule's bars with the other lead: `, left lead`
 */
export function variationsBy(
  rule: VariationRule,
  pattern: Sticking,
  bar: { readonly partialsPerBeat: number; readonly partials: number },
  suffix: string,
): Variation[] {
  const beat = [bar.partialsPerBeat];
  const full = (figure: Sticking): Sticking => filled(figure, bar.partials);
  const one = (name: string, figure: Sticking): Variation => [{ name, sticking: full(figure) }];
  switch (rule) {
    case 'as written':
      return [running(pattern, bar.partials, (sticking) => stickingText(sticking, beat))];
    case 'another subdivision':
      return [
        running(pattern, bar.partials, (_, index, bars) => {
          const part = bars === 1 ? '' : `, bar ${index + 1}`;
          return `${stickingText(pattern, [pattern.length])} in ${subdivisionName(bar.partialsPerBeat)}${part}`;
        }),
      ];
    case 'accent walk':
      return walk(full(pattern), bar.partialsPerBeat, (partial) => `accent on ${partial + 1}${suffix}`);
    case 'rotations':
      return rotations(pattern).map((turned) => one(label(turned, beat), turned));
    case 'displacements':
      return displacements(pattern).map((moved) => one(stickingText(moved, beat), moved));
    case 'accents off':
      return [one(`accents off${suffix}`, accentsOff(pattern))];
    case 'right hand alone':
      return [one(`right hand alone${suffix}`, oneHand(pattern, 'R'))];
    case 'left hand alone':
      return [one(`left hand alone${suffix}`, oneHand(pattern, 'L'))];
    case 'accents by rotations':
      return rotations(pattern).flatMap((turned) =>
        walk(
          full(turned),
          bar.partialsPerBeat,
          (partial) => `${label(turned, beat)}, accent on ${partial + 1}`,
        ),
      );
  }
}

const SUBDIVISIONS: Readonly<Record<number, string>> = {
  1: 'quarters',
  2: 'eighths',
  3: 'triplets',
  4: 'sixteenths',
  5: 'quintuplets',
  6: 'sextuplets',
  7: 'septuplets',
  8: 'thirty-seconds',
};

/** What partials of a beat are called: five of them quintuplets. */
function subdivisionName(partialsPerBeat: number): string {
  return Object.hasOwn(SUBDIVISIONS, partialsPerBeat)
    ? SUBDIVISIONS[partialsPerBeat]
    : `${partialsPerBeat} a beat`;
}

function walk(bar: Sticking, partialsPerBeat: number, name: (partial: number) => string): Variation[] {
  return struckPartials(bar, partialsPerBeat).map((partial) => [
    { name: name(partial), sticking: accentOn(bar, partial, partialsPerBeat) },
  ]);
}

function running(
  pattern: Sticking,
  partials: number,
  name: (bar: Sticking, index: number, bars: number) => string,
): Variation {
  const bars = runningBars(pattern, partials);
  // A pattern that fits the bar names it; one that doesn't leaves each bar to its own sticking.
  return bars.map((sticking, index) => ({
    name: name(bars.length === 1 ? pattern : sticking, index, bars.length),
    sticking,
  }));
}

/** The hands alone, unless there are grace notes: then as written, for they may be all that differs. */
function label(pattern: Sticking, beat: readonly number[]): string {
  return pattern.some(({ graces }) => graces.length > 0)
    ? stickingText(pattern, beat)
    : handsText(pattern, beat);
}
