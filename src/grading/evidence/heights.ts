import type { Hand } from '../../stroke';
import type { Db } from '../../units';
import type { Scope } from './codes';
import type { Limit } from '../figures/limit';

/** A player's own low, half and full strokes, dB re velocity 127, trims in them as in the strokes. */
export interface HeightLines {
  readonly low: Db;
  readonly half: Db;
  readonly full: Db;
}

/** Those of one hand on one surface, by the name that the grid's slots have for it; null where the phrase has none. */
export interface HandLines extends HeightLines {
  readonly hand: Hand;
  readonly surface: string | null;
}

/** What the lines of a scope are looked for in: the evidence of a take. */
interface WithHeights {
  readonly graded: { readonly heights?: readonly HandLines[] };
  /** Names, by their codes. */
  readonly surfaces: readonly (string | null)[];
}

/**
 * The lines that levels in a scope stand between: the mean of those of its hands, on its surface where one is named.
 * @returns undefined where the rig has learned no heights
 */
export function linesIn({ graded, surfaces }: WithHeights, scope: Scope): HeightLines | undefined {
  const { heights } = graded;
  if (heights === undefined) return undefined;
  const ofHand = heights.filter(({ hand }) => scope.hand === undefined || hand === scope.hand);
  const name = scope.surface === undefined ? null : surfaces[scope.surface];
  const there = ofHand.filter(({ surface }) => name !== null && surface === name);
  return meanLines(there.length > 0 ? there : ofHand);
}

/**
 * The mean of several hands' or surfaces' lines. @returns undefined of none
 * @example meanLines([{ low: -24, half: -14, full: -4 }, { low: -22, half: -12, full: -6 }])
 * // => { low: -23, half: -13, full: -5 }
 */
export function meanLines(all: readonly HeightLines[]): HeightLines | undefined {
  if (all.length === 0) return undefined;
  const mean = (of: (lines: HeightLines) => Db): Db =>
    all.reduce((sum, lines) => sum + of(lines), 0) / all.length;
  return { low: mean(({ low }) => low), half: mean(({ half }) => half), full: mean(({ full }) => full) };
}

/**
 * Soft strokes: ideal at *low*, hold up to half-way from low to half, *not yet* over half. Source: grading.md section 1.
 * @example softHeightLimit({ low: -24, half: -14, full: -4 }) // => { ideal: -24, holds: -19, notYet: -14, twoSided: false }
 */
export function softHeightLimit({ low, half }: HeightLines): Limit {
  return { ideal: low, holds: (low + half) / 2, notYet: half, twoSided: false };
}

/**
 * Accents: ideal at *full*, hold from half-way from half to full, *not yet* under half. Source: grading.md section 1.
 * @example accentHeightLimit({ low: -24, half: -14, full: -4 }) // => { ideal: -4, holds: -9, notYet: -14, twoSided: false }
 */
export function accentHeightLimit({ half, full }: HeightLines): Limit {
  return { ideal: full, holds: (half + full) / 2, notYet: half, twoSided: false };
}
