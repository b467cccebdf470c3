import type { Hand } from '../../stroke';
import { kindCode, soft, who, type Scope } from '../codes';
import { dueOfKinds, type Evidence } from '../evidence';
import { welchDifference, type Estimate } from '../intervals';
import { limitOf } from '../limits';
import { mean } from '../statistics';
import type { Figure } from '../types';
import { judged, plain, unjudged } from '../verdict';

/** Mean level of one soft place of a hand, and the levels it is the mean of. */
export interface SoftPlace {
  readonly levelsDb: readonly number[];
  readonly meanDb: number;
  readonly place: number;
}

interface Range {
  readonly hand: Hand;
  readonly estimate: Estimate;
  readonly n: readonly number[];
}

/**
 * Largest minus smallest mean level of a hand's soft places, within taps or within ghosts, dB; the larger of the
 * hands. Wrong hands are left out, and places with under 4 strokes; a hand with under two places left: too few.
 * Interval: Welch of the two places.
 * @param isJudged false where the model's terms say more: then it is shown without a verdict
 * @returns undefined where no hand has two soft places of a kind
 * @example right taps at -20 on one place and at -14 on another: 6 dB, close (3 holds, 7 is not yet)
 * Source: common practice.
 */
export function softRange(evidence: Evidence, scope: Scope, isJudged: boolean): Figure | undefined {
  const { settings } = evidence.graded;
  const hands: readonly Hand[] = scope.hand === undefined ? ['R', 'L'] : [scope.hand];
  const ranges: Range[] = [];
  let isDue = false;
  let n = 0;
  for (const hand of hands) {
    if (dueOfKinds(evidence, { ...scope, hand }, soft) === 0) continue;
    for (const kind of soft) {
      const places = softPlaces(evidence, { ...scope, hand }, kindCode[kind]);
      if (places.length < 2) continue;
      isDue = true;
      n += places.reduce((sum, place) => sum + place.levelsDb.length, 0);
      const enough = places.filter((place) => place.levelsDb.length >= settings['few.group']);
      if (enough.length < 2) continue;
      const loudest = enough.reduce((most, next) => (next.meanDb > most.meanDb ? next : most));
      const softest = enough.reduce((least, next) => (next.meanDb < least.meanDb ? next : least));
      const estimate = welchDifference(loudest.levelsDb, softest.levelsDb);
      if (estimate) ranges.push({ hand, estimate, n: [loudest.levelsDb.length, softest.levelsDb.length] });
    }
  }
  if (!isDue) return undefined;
  if (ranges.length === 0) return unjudged('too few strokes', [n]);
  const larger = ranges.reduce((most, next) => (next.estimate.value > most.estimate.value ? next : most));
  const figure = isJudged
    ? judged(larger.estimate, larger.n, limitOf('softRange', settings, 0))
    : plain(larger.estimate, larger.n);
  return { ...figure, hand: larger.hand };
}

/** Soft places of a hand with their levels, a place of each variation for itself, in order of first appearance. */
function softPlaces(evidence: Evidence, scope: Scope & { readonly hand: Hand }, kind: number): SoftPlace[] {
  const { rows, slots } = evidence.models[scope.hand];
  const byPlace = new Map<number, number[]>();
  slots.forEach((i, row) => {
    if (evidence.kind[i] !== kind || evidence.who[i] !== who[scope.hand]) return;
    if (scope.variation !== undefined && evidence.variation[i] !== scope.variation) return;
    const { place } = evidence.graded.grid.slots[i];
    const key = evidence.variation[i] * PLACES + place;
    const levels = byPlace.get(key);
    if (levels === undefined) byPlace.set(key, [rows[row].levelDb]);
    else levels.push(rows[row].levelDb);
  });
  return [...byPlace].map(([key, levelsDb]) => ({
    levelsDb,
    meanDb: mean(levelsDb) ?? 0,
    place: key % PLACES,
  }));
}

/** More places than any bar has. */
const PLACES = 1 << 16;
