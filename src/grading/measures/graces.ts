import { variationsOf, type Evidence } from '../evidence';
import type { Scope } from '../codes';
import { meanEstimate, medianEstimate, pooledSd, welchDifference, type Estimate } from '../intervals';
import { flamGapLimit, limitOf, type Limit } from '../limits';
import { distributionOf } from '../statistics';
import type { Figure } from '../types';
import type { Settings } from '../../settings';
import { judged, judgedIfEnough, unjudged } from '../verdict';

/** Grace notes of a scope: how far ahead of the next stroke of their group, and how loud against their main stroke. */
interface Graces {
  readonly gapsMs: readonly number[];
  /** By hand of the main stroke, R then L: the gaps, for what is even within a hand and not between them. */
  readonly gapsByHand: readonly (readonly number[])[];
  readonly beforeAccentDb: readonly number[];
  readonly beforeSoftDb: readonly number[];
  /** True where most of those due did not arrive on pads that merge close strokes: too tight or left out, nobody can tell. */
  readonly merged: boolean;
}

/**
 * Evenness of flams and drags, judged before their width: standard deviation of the gaps about the mean of their hand
 * (that of the stroke they lead to), ms, pooled; or how much wider one hand's gaps are than the other's, ms by their
 * means, where that stands worse: then `hand` is the wider. Under 8 graces (for the difference 4 a hand): too few. Holds
 * up to 7 ms, not yet over 15. Interval of the difference: Welch.
 * @returns undefined where no grace is due
 * Source: common practice.
 */
export function flamEvenness(evidence: Evidence, scope: Scope): Figure | undefined {
  const graces = gracesIn(evidence, scope);
  if (graces === undefined) return undefined;
  const { settings } = evidence.graded;
  if (graces.merged) return unjudged('not measured', [graces.gapsMs.length]);
  const spread = judgedIfEnough(
    () => pooledSd(graces.gapsByHand.filter((gaps) => gaps.length > 0)),
    [graces.gapsMs.length],
    settings['few.spread'],
    () => limitOf('flamEvenness', settings, 0),
  );
  const apart = betweenHands(graces, settings);
  const worse = apart !== undefined && (apart.supported ?? 1) < (spread.supported ?? 1);
  return spread.value !== null && worse ? apart : spread;
}

/** How much wider one hand's gaps are; undefined where a hand has too few. */
function betweenHands({ gapsByHand }: Graces, settings: Settings): Figure | undefined {
  const [right, left] = gapsByHand;
  const few = settings['few.group'];
  if (right === undefined || left === undefined || right.length < few || left.length < few) return undefined;
  const found = welchDifference(right, left);
  if (found === undefined) return undefined;
  const { value, interval } = found;
  const limit = { ...limitOf('flamEvenness', settings, 0), twoSided: true };
  const size: Estimate = value < 0 ? { value: -value, interval: [-interval[1], -interval[0]] } : found;
  return { ...judged(size, [right.length, left.length], limit), hand: value < 0 ? 'L' : 'R' };
}

/**
 * Width of flams and drags: median gap from a grace to the next stroke of its group, ms. Ideal 30; holds 15–55, not yet
 * outside 8–80. Under 4 graces: too few.
 * @returns undefined where no grace is due
 * Source: common practice.
 */
export function flamGap(evidence: Evidence, scope: Scope): Figure | undefined {
  const graces = gracesIn(evidence, scope);
  if (graces === undefined) return undefined;
  const { settings } = evidence.graded;
  if (graces.merged) return unjudged('not measured', [graces.gapsMs.length]);
  const width = medianEstimate(distributionOf(graces.gapsMs));
  return judgedIfEnough(
    () => width,
    [graces.gapsMs.length],
    settings['few.group'],
    () => flamGapLimit(settings, width?.value ?? 0),
  );
}

/**
 * Softness of grace notes: mean level of a grace less that of the stroke it leads to, dB, before accents; in a phrase
 * whose flams have no accent, before soft strokes, which leave it less room. Holds at −12 or less (−4), not yet over −6
 * (+1). Under 4 graces: too few. A grace on another surface than its stroke, where the phrase is voiced, has no level to
 * compare unless the two are trimmed: not measured.
 * @returns undefined where no grace is due
 * Source: common practice.
 */
export function graceSoftness(evidence: Evidence, scope: Scope): Figure | undefined {
  const graces = gracesIn(evidence, scope);
  if (graces === undefined) return undefined;
  const { settings } = evidence.graded;
  if (graces.merged) return unjudged('not measured', [graces.gapsMs.length]);
  const levels = graces.beforeAccentDb.length > 0 ? graces.beforeAccentDb : graces.beforeSoftDb;
  if (levels.length === 0 && graces.gapsMs.length > 0) return unjudged('not measured', [0]);
  const accented: Limit = limitOf('graceSoftness', settings, 0);
  const soft: Limit = {
    ...accented,
    ideal: settings['heights.low'] - settings['softness.holds'] + settings['graceSoftness.softHolds'],
    holds: settings['graceSoftness.softHolds'],
    notYet: settings['graceSoftness.softNotYet'],
  };
  return judgedIfEnough(
    () => meanEstimate(levels),
    [levels.length],
    settings['few.group'],
    () => (levels === graces.beforeAccentDb ? accented : soft),
  );
}

function gracesIn(evidence: Evidence, scope: Scope): Graces | undefined {
  const { grid, strokes, alignment } = evidence.graded;
  const wanted = new Set(variationsOf(evidence, scope));
  const inScope = (slot: number): boolean =>
    wanted.has(evidence.variation[slot]) &&
    (scope.hand === undefined || grid.slots[slot].hand === scope.hand);
  if (!grid.slots.some((slot) => slot.graces.length > 0 && inScope(slot.index))) return undefined;
  const byHand: number[][] = [[], []];
  const beforeAccentDb: number[] = [];
  const beforeSoftDb: number[] = [];
  for (const { slot, strokes: found } of alignment.graces ?? []) {
    const outcome = alignment.outcomes[slot];
    if (!inScope(slot) || outcome.status !== 'matched') continue;
    const main = strokes[outcome.stroke];
    const ofHand = byHand[grid.slots[slot].hand === 'R' ? 0 : 1];
    found.forEach((index, order) => {
      const next = strokes[found[order + 1] ?? outcome.stroke];
      ofHand.push(next.atMs - strokes[index].atMs);
      if (!comparable(evidence, slot, strokes[index].surface, main.surface)) return;
      const level = strokes[index].levelDb - main.levelDb;
      (grid.slots[slot].kind === 'accent' ? beforeAccentDb : beforeSoftDb).push(level);
    });
  }
  const gapsMs = byHand.flat();
  const merged = gapsMs.length < MOST_LOST * dueOnMerging(evidence, inScope);
  return { gapsMs, gapsByHand: byHand, beforeAccentDb, beforeSoftDb, merged };
}

/** Under this share of the graces due, what arrived says nothing of the others. Common practice. */
const MOST_LOST = 0.5;

/** Graces due before strokes that arrived on a pad that merges close ones. */
function dueOnMerging({ graded }: Evidence, inScope: (slot: number) => boolean): number {
  const merging = new Set(graded.closestPairs?.map(({ id }) => id));
  if (merging.size === 0) return 0;
  let due = 0;
  for (const { index, graces } of graded.grid.slots) {
    const outcome = graded.alignment.outcomes[index];
    if (graces.length === 0 || outcome.status !== 'matched' || !inScope(index)) continue;
    if (merging.has(graded.strokes[outcome.stroke].surface)) due += graces.length;
  }
  return due;
}

/** Whether a grace's level may be held against its stroke's: always where nothing is voiced, else within a surface. */
function comparable({ graded }: Evidence, slot: number, grace: string, main: string): boolean {
  const { surface } = graded.grid.slots[slot];
  if (surface === null || grace === main) return true;
  return graded.trimmed?.has(grace) === true && graded.trimmed.has(main);
}
