import type { Hand } from '../../stroke';
import type { Settings } from '../../settings';
import { kindCode, soft, who, type Scope } from '../evidence/codes';
import { dueOfKinds, type Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { welchDifference, type Estimate } from '../numbers/intervals';
import { oneSided, type Limit } from '../figures/limit';
import { carriedTerms } from '../facts/phrase-facts';
import { AS_IT_WAS, CP } from '../remedy/rules';
import { ifStruck, isAccent, isByItsHand } from '../figures/stroke-groups';
import { isTermDue, isInestimable } from '../figures/term-figure';
import { judged, plain, unjudged } from '../verdict';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => oneSided(settings, 'softRange');

/**
 * Largest minus smallest mean level of a hand's soft places, within taps or within ghosts, dB; the larger of the
 * hands. Wrong hands are left out, and places with under 4 strokes; a hand with under two places left: too few.
 * Interval: Welch of the two places. Judged where a term of the soft-stroke model can't be told, or where the scope has
 * no accent for a soft stroke to lie near; else shown without a verdict, for the terms say more.
 * @example right taps at -20 on one place and at -14 on another: 6 dB, close (3 holds, 7 is not yet)
 * Source: common practice.
 */
export const softRange: JudgedMeasure<'softRange', null> = {
  key: 'softRange',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  remedy: {
    rule: 'accents off',
    tempoShare: AS_IT_WAS,
    source: `${CP}: taps are levelled without accents`,
  },
  live: 'soft level',
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate,
      groups: (evidence) => [
        { name: 'soft', has: (i) => isByItsHand(evidence, i) && !isAccent(evidence, i) },
      ],
      badness: (evidence, { hand }) =>
        ifStruck(
          evidence,
          (i) => evidence.levelDb[i],
          (i) => !isAccent(evidence, i) && (hand === undefined || evidence.who[i] === who[hand]),
        ),
      picture: 'levels by place',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

interface Range {
  readonly hand: Hand;
  readonly estimate: Estimate;
  readonly n: readonly number[];
}

/** @returns undefined where no hand has two soft places of a kind */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
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
      const found = welchDifference(loudest.levelsDb, softest.levelsDb);
      if (found) {
        ranges.push({ hand, estimate: found, n: [loudest.levelsDb.length, softest.levelsDb.length] });
      }
    }
  }
  if (!isDue) return undefined;
  if (ranges.length === 0) return unjudged('too few strokes', [n]);
  const larger = ranges.reduce((most, next) => (next.estimate.value > most.estimate.value ? next : most));
  const figure = isJudged(evidence, scope)
    ? judged(larger.estimate, larger.n, limit(settings), settings)
    : plain(larger.estimate, larger.n);
  return { ...figure, hand: larger.hand };
}

function isJudged(evidence: Evidence, scope: Scope): boolean {
  const nearAccents = (['before', 'after', 'spill'] as const).some((term) =>
    isTermDue(evidence, scope, term),
  );
  return !nearAccents || carriedTerms.some((term) => isInestimable(evidence, scope, term));
}
