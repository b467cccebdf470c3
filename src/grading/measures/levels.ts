import { square } from '../../exact';
import type { Kind } from '../../exercises/types';
import { soft, type Scope } from '../codes';
import { bySurface, dueOfKinds, type Evidence } from '../evidence';
import { accentHeightLimit, linesIn, softHeightLimit, type HeightLines } from '../heights';
import {
  clarityEstimate,
  medianDifference,
  medianEstimate,
  spreadEstimate,
  type Estimate,
} from '../intervals';
import { limitOf } from '../limits';
import type { Figure } from '../types';
import { judged, judgedIfEnough, unjudged } from '../verdict';

const accents: readonly Kind[] = ['accent'];

/**
 * Median level of the soft strokes, dB re velocity 127; of the ghost notes alone where the phrase has taps and ghosts.
 * Lower is softer. Wrong hands stay in, except in a hand's own row. Under 4 strokes: too few. Ends of the interval:
 * exact bootstrap distribution of the median. Where the rig has heights it is judged against them: half-way from low
 * to half holds, over half is not yet.
 * @returns undefined where no such stroke is due
 * @example taps of velocity 40 and no others: 40·log10(40/127) = -20.07 dB, which holds (-16 or softer)
 * Source: common practice.
 */
export function softness(evidence: Evidence, scope: Scope): Figure | undefined {
  const kinds = softKinds(evidence);
  if (dueOfKinds(evidence, scope, kinds) === 0) return undefined;
  const levels = evidence.levels.select(scope, kinds);
  const { settings } = evidence.graded;
  const lines = linesIn(evidence, scope);
  return judgedIfEnough(
    () => medianEstimate(levels),
    [levels.n],
    settings['few.group'],
    () => (lines === undefined ? limitOf('softness', settings, 0) : softHeightLimit(lines)),
  );
}

/**
 * Median tap minus median ghost note, dB; positive: taps louder, as they should be. Under 4 of either: too few.
 * @returns undefined where the scope lacks taps or ghosts
 * Source: common practice.
 */
export function ghostContrast(evidence: Evidence, scope: Scope): Figure | undefined {
  return medianGap(evidence, scope, 'ghostContrast', ['tap'], ['ghost']);
}

/**
 * Median accent minus median soft stroke (taps and ghosts), dB; positive: accents louder. Under 4 of either: too few.
 * Where the rig has heights the verdict is the accents' median's (`accentDb`): half-way from half to full holds, under
 * half is not yet. Where accents clip it is "at least" the value: it can hold, and has no verdict where it doesn't.
 * @example accents of velocity 127 over taps of 64: 11.9 dB, just short of the 12 that hold
 * Source: common practice.
 */
export function contrast(evidence: Evidence, scope: Scope): Figure | undefined {
  const figure = medianGap(evidence, scope, 'contrast', accents, soft);
  if (figure === undefined || figure.value === null || !evidence.clipping.touches(scope)) return figure;
  if (figure.band === 'holds') return { ...figure, atLeast: true };
  return { ...withoutVerdict(figure), atLeast: true };
}

/**
 * Probability that an accent is louder than a soft stroke, ties half, over all pairs (area under the ROC curve).
 * Under 4 of either: too few. Interval: DeLong.
 * @example every accent louder than every tap: 1
 */
export function clarity(evidence: Evidence, scope: Scope): Figure | undefined {
  if (!areDue(evidence, scope, accents, soft)) return undefined;
  const { settings } = evidence.graded;
  return withinSurface(evidence, scope, [accents, soft], (within) => {
    const loud = evidence.levels.select(within, accents);
    const quiet = evidence.levels.select(within, soft);
    return judgedIfEnough(
      () => clarityEstimate(loud, quiet),
      [loud.n, quiet.n],
      settings['few.group'],
      () => limitOf('clarity', settings, 0),
    );
  });
}

/**
 * Median right minus median left within the soft strokes, dB; positive: right louder. Where the phrase has taps and
 * ghosts, within the one of which both hands have more. Wrong hands are left out. Under 4 of a hand: too few.
 * What the rig's trims leave widens the interval; where that alone reaches the limit it is not measured.
 * @returns undefined where one hand has no soft stroke due
 * @example right taps at -18, left taps at -21: +3 dB, close (2.5 holds, 5 is not yet)
 * Source: common practice.
 */
export function balanceSoft(evidence: Evidence, scope: Scope): Figure | undefined {
  const shared = (kind: Kind): number =>
    Math.min(
      dueOfKinds(evidence, { ...scope, hand: 'R' }, [kind]),
      dueOfKinds(evidence, { ...scope, hand: 'L' }, [kind]),
    );
  const kinds: readonly Kind[] = !evidence.tapsAndGhosts
    ? soft
    : shared('tap') >= shared('ghost')
      ? ['tap']
      : ['ghost'];
  return balance(evidence, scope, 'balanceSoft', kinds);
}

/** The same for accents, dB; positive: right louder. Without a verdict where accents clip. */
export function balanceAccent(evidence: Evidence, scope: Scope): Figure | undefined {
  const figure = balance(evidence, scope, 'balanceAccent', accents);
  if (figure === undefined || figure.value === null) return figure;
  return evidence.clipping.touches(scope) ? withoutVerdict(figure) : figure;
}

/**
 * 1.4826·MAD of the levels of the soft strokes (ghosts alone where the phrase has taps and ghosts), dB.
 * Under 8 strokes: too few.
 * Source: common practice.
 */
export function softSpread(evidence: Evidence, scope: Scope): Figure | undefined {
  return spread(evidence, scope, 'softSpread', softKinds(evidence));
}

/** The same for accents, dB. Without a verdict where accents clip. */
export function accentSpread(evidence: Evidence, scope: Scope): Figure | undefined {
  const figure = spread(evidence, scope, 'accentSpread', accents);
  if (figure === undefined || figure.value === null) return figure;
  return evidence.clipping.touches(scope) ? withoutVerdict(figure) : figure;
}

/** The soft strokes that softness speaks of: the deeper kind where the phrase has taps and ghosts. */
export function softKinds(evidence: Evidence): readonly Kind[] {
  return evidence.tapsAndGhosts ? ['ghost'] : soft;
}

function medianGap(
  evidence: Evidence,
  scope: Scope,
  key: 'contrast' | 'ghostContrast',
  louder: readonly Kind[],
  softer: readonly Kind[],
): Figure | undefined {
  if (!areDue(evidence, scope, louder, softer)) return undefined;
  const { settings } = evidence.graded;
  return withinSurface(evidence, scope, [louder, softer], (within) => {
    const loud = evidence.levels.select(within, louder);
    const quiet = evidence.levels.select(within, softer);
    const lines = key === 'contrast' ? linesIn(evidence, within) : undefined;
    const figure = judgedIfEnough(
      () => medianDifference(loud, quiet),
      [loud.n, quiet.n],
      settings['few.group'],
      () => limitOf(key, settings, 0),
    );
    return lines === undefined ? figure : byHeights(figure, medianEstimate(loud), lines);
  });
}

/** The contrast with the verdict that the accents' median has between the rig's heights. */
function byHeights(figure: Figure, accent: Estimate | undefined, lines: HeightLines): Figure {
  if (figure.value === null || accent === undefined) return figure;
  const { value, interval, n } = figure;
  return { ...judged(accent, n, accentHeightLimit(lines)), value, interval, accentDb: accent.value };
}

/**
 * A figure that compares levels, within one class of surfaces: of those that have all the groups due the one that stands
 * worst, with its name. *Not measured* where none has: nobody can say how a level on one surface compares with one on
 * another before they are trimmed.
 */
function withinSurface(
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

function balance(
  evidence: Evidence,
  scope: Scope,
  key: 'balanceSoft' | 'balanceAccent',
  kinds: readonly Kind[],
): Figure | undefined {
  const [right, left] = [
    { ...scope, hand: 'R' },
    { ...scope, hand: 'L' },
  ] as const;
  if (dueOfKinds(evidence, right, kinds) === 0 || dueOfKinds(evidence, left, kinds) === 0) return undefined;
  const { settings } = evidence.graded;
  const leftDb = evidence.graded.balanceLeftDb ?? 0;
  const figureOf = (within: Scope): Figure => {
    const ofRight = evidence.levels.select({ ...within, hand: 'R' }, kinds);
    const ofLeft = evidence.levels.select({ ...within, hand: 'L' }, kinds);
    const n = [ofRight.n, ofLeft.n];
    const limit = limitOf(key, settings, 0);
    if (leftDb >= limit.holds) return unjudged('not measured', n);
    return judgedIfEnough(
      () => widened(medianDifference(ofRight, ofLeft), leftDb),
      n,
      settings['few.group'],
      () => limit,
    );
  };
  const scopes = bySurface(evidence, scope);
  if (scopes.length === 1) return figureOf(scope);
  const hasBoth = (within: Scope): boolean =>
    (['R', 'L'] as const).every((hand) => dueOfKinds(evidence, { ...within, hand }, kinds) > 0);
  return worstSurface(evidence, scopes.filter(hasBoth), figureOf, 2);
}

/** An estimate with what the trims leave in its interval: both doubts are independent. */
function widened(estimate: Estimate | undefined, leftDb: number): Estimate | undefined {
  if (estimate === undefined || leftDb === 0) return estimate;
  const { value, interval } = estimate;
  const reach = (end: number): number => Math.sqrt(square(value - end) + square(leftDb));
  return { value, interval: [value - reach(interval[0]), value + reach(interval[1])] };
}

function spread(
  evidence: Evidence,
  scope: Scope,
  key: 'softSpread' | 'accentSpread',
  kinds: readonly Kind[],
): Figure | undefined {
  if (dueOfKinds(evidence, scope, kinds) === 0) return undefined;
  const { settings } = evidence.graded;
  return withinSurface(evidence, scope, [kinds], (within) => {
    const levels = evidence.levels.select(within, kinds);
    return judgedIfEnough(
      () => spreadEstimate(levels),
      [levels.n],
      settings['few.spread'],
      () => limitOf(key, settings, 0),
    );
  });
}

function areDue(evidence: Evidence, scope: Scope, ...groups: (readonly Kind[])[]): boolean {
  return groups.every((kinds) => dueOfKinds(evidence, scope, kinds) > 0);
}

function withoutVerdict({ value, interval, n, surface }: Figure): Figure {
  return surface === undefined ? { value, interval, n } : { value, interval, n, surface };
}
