import { square } from '../../exact';
import type { Kind } from '../../exercises/types';
import { soft, type Scope } from '../evidence/codes';
import { bySurface, dueOfKinds, type Evidence } from '../evidence/evidence';
import type { Figure } from './figure';
import { medianDifference, spreadEstimate, type Estimate } from '../numbers/intervals';
import type { Limit } from './limit';
import type { Badness } from '../measures/measure';
import { median } from '../numbers/statistics';
import { ifStruck, ofKinds } from './stroke-groups';
import { judgedIfEnough, unjudged } from '../verdict';

export const accents: readonly Kind[] = ['accent'];

/** The soft strokes that softness speaks of: the deeper kind where the phrase has taps and ghosts. */
export function softKinds(evidence: Evidence): readonly Kind[] {
  return evidence.tapsAndGhosts ? ['ghost'] : soft;
}

/** True where the scope has a slot of each group of kinds. */
export function areDue(evidence: Evidence, scope: Scope, ...groups: (readonly Kind[])[]): boolean {
  return groups.every((kinds) => dueOfKinds(evidence, scope, kinds) > 0);
}

/** Median level of the louder kinds less that of the softer, dB. Under 4 of either: too few. */
export function medianGap(
  evidence: Evidence,
  scope: Scope,
  [louder, softer]: readonly [readonly Kind[], readonly Kind[]],
  limit: Limit,
): Figure {
  const loud = evidence.levels.select(scope, louder);
  const quiet = evidence.levels.select(scope, softer);
  return judgedIfEnough(
    () => medianDifference(loud, quiet),
    [loud.n, quiet.n],
    'few.group',
    () => limit,
    evidence.graded.settings,
  );
}

/**
 * A figure that compares levels, within one class of surfaces: of those that have all the groups due the one that stands
 * worst, with its name. *Not measured* where none has: nobody can say how a level on one surface compares with one on
 * another before they are trimmed.
 */
export function withinSurface(
  evidence: Evidence,
  scope: Scope,
  groups: readonly (readonly Kind[])[],
  figureOf: (scope: Scope) => Figure,
): Figure {
  const scopes = bySurface(evidence, scope);
  if (scopes.length === 1) return figureOf(scope);
  return worstSurface(
    evidence,
    scopes.filter((within) => areDue(evidence, within, ...groups)),
    figureOf,
    groups.length,
  );
}

function worstSurface(
  evidence: Evidence,
  scopes: readonly Scope[],
  figureOf: (scope: Scope) => Figure,
  groups: number,
): Figure {
  const found = scopes.map((within): Figure => {
    const name = evidence.surfaces[within.surface ?? 0];
    return { ...figureOf(within), ...(name === null ? {} : { surface: name }) };
  });
  if (found.length === 0) {
    return unjudged(
      'not measured',
      Array.from({ length: groups }, () => 0),
    );
  }
  return found.reduce((worst, next) =>
    (next.supported ?? Infinity) < (worst.supported ?? Infinity) ? next : worst,
  );
}

/**
 * Median right minus median left within the kinds, dB; positive: right louder. Wrong hands are left out. Under 4 of a
 * hand: too few. What the rig's trims leave widens the interval; where that alone reaches the limit it is not measured.
 * @returns undefined where one hand has no such stroke due
 */
export function balance(
  evidence: Evidence,
  scope: Scope,
  kinds: readonly Kind[],
  limit: Limit,
): Figure | undefined {
  const hasBoth = (within: Scope): boolean =>
    (['R', 'L'] as const).every((hand) => dueOfKinds(evidence, { ...within, hand }, kinds) > 0);
  if (!hasBoth(scope)) return undefined;
  const leftDb = evidence.graded.balanceLeftDb ?? 0;
  const figureOf = (within: Scope): Figure => {
    const ofRight = evidence.levels.select({ ...within, hand: 'R' }, kinds);
    const ofLeft = evidence.levels.select({ ...within, hand: 'L' }, kinds);
    const n = [ofRight.n, ofLeft.n];
    if (leftDb >= limit.holds) return unjudged('not measured', n);
    return judgedIfEnough(
      () => widened(medianDifference(ofRight, ofLeft), leftDb),
      n,
      'few.group',
      () => limit,
      evidence.graded.settings,
    );
  };
  const scopes = bySurface(evidence, scope);
  if (scopes.length === 1) return figureOf(scope);
  return worstSurface(evidence, scopes.filter(hasBoth), figureOf, 2);
}

/** An estimate with what the trims leave in its interval: both doubts are independent. */
function widened(estimate: Estimate | undefined, leftDb: number): Estimate | undefined {
  if (estimate === undefined || leftDb === 0) return estimate;
  const { value, interval } = estimate;
  const reach = (end: number): number => Math.sqrt(square(value - end) + square(leftDb));
  return { value, interval: [value - reach(interval[0]), value + reach(interval[1])] };
}

/**
 * 1.4826·MAD of the levels of the kinds, dB. Under 8 strokes: too few.
 * @returns undefined where no such stroke is due
 */
export function spread(
  evidence: Evidence,
  scope: Scope,
  kinds: readonly Kind[],
  limit: Limit,
): Figure | undefined {
  if (!areDue(evidence, scope, kinds)) return undefined;
  return withinSurface(evidence, scope, [kinds], (within) => {
    const levels = evidence.levels.select(within, kinds);
    return judgedIfEnough(
      () => spreadEstimate(levels),
      [levels.n],
      'few.spread',
      () => limit,
      evidence.graded.settings,
    );
  });
}

/** A figure of which clipping leaves the value and takes the verdict. */
export function withoutVerdict({ value, interval, n, surface }: Figure): Figure {
  return surface === undefined ? { value, interval, n } : { value, interval, n, surface };
}

/** How far each stroke of the kinds lies from their middle in the variation, dB. */
export function fromTheMiddle(evidence: Evidence, variation: number, kinds: readonly Kind[]): Badness {
  const middle = median(evidence.levels.select({ variation }, kinds)) ?? 0;
  return ifStruck(evidence, (i) => Math.abs(evidence.levelDb[i] - middle), ofKinds(evidence, kinds));
}
