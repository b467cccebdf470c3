import type { Hand } from '../../stroke';
import { kindCode, soft, type Scope } from '../codes';
import { dueOfKinds, type Evidence } from '../evidence';
import { welchDifference, type Estimate } from '../intervals';
import { limitOf } from '../limits';
import type { Figure } from '../types';
import { judged, plain, unjudged } from '../verdict';

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
      const places = evidence.models[hand].places.filter(
        (place) =>
          place.kind === kindCode[kind] &&
          (scope.variation === undefined || place.variation === scope.variation),
      );
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
