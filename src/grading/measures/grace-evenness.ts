import { square } from '../../exact';
import type { Settings } from '../../settings';
import type { Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { graceGapMs, gracedStrokes, gracesBySlot, gracesIn } from '../figures/grace-gaps';
import { pooledSd } from '../numbers/intervals';
import { downToNought, type Limit } from '../figures/limit';
import { CP, TWO_STEPS_DOWN } from '../remedy/rules';
import { judged, unjudged } from '../verdict';
import type { Badness, JudgedMeasure } from './measure';
import { mean } from '../../ordered';

const limit = (settings: Settings): Limit => downToNought(settings, 'graceEvenness');

/**
 * Evenness of flams and drags: standard deviation of the gaps about the mean of their hand (that of the stroke they lead
 * to), ms, pooled. Flams and drags apart, and each place of a drag apart: the largest. Under 8 graces of a place: too
 * few. What is even within the hands and not between them is `graceHands`. Holds up to 9 ms, not yet over 18.
 * Source: common practice; in line with a published data set's sd of 6 to 12 ms.
 */
export const graceEvenness: JudgedMeasure<'graceEvenness', null> = {
  key: 'graceEvenness',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  remedy: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: CP },
  live: 'early or late',
  column: { rank: 11, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      limit,
      estimate,
      groups: (evidence) => gracedStrokes(evidence),
      badness: offTheMean,
      picture: 'grace notes',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

/** @returns undefined where no grace is due */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const graces = gracesIn(evidence, scope);
  if (graces === undefined) return undefined;
  const { settings } = evidence.graded;
  if (graces.merged) return unjudged('not measured', [graces.n]);
  const spreads = graces.places.flatMap(({ R, L }) => {
    const n = R.length + L.length;
    const estimate = n < settings['few.spread'] ? undefined : pooledSd([R, L]);
    return estimate === undefined ? [] : [{ estimate, n }];
  });
  if (spreads.length === 0) return unjudged('too few strokes', [graces.n]);
  const worst = spreads.reduce((most, next) => (next.estimate.value > most.estimate.value ? next : most));
  return judged(worst.estimate, [worst.n], limit(settings), settings);
}

/** How far a gap lies from the mean of all. */
function offTheMean(evidence: Evidence): Badness {
  const found = gracesBySlot(evidence);
  const gaps = [...found.keys()].flatMap((i) => graceGapMs(evidence, found, i) ?? []);
  const middle = mean(gaps) ?? 0;
  return (i) => {
    const gap = graceGapMs(evidence, found, i);
    return gap === undefined ? undefined : square(gap - middle);
  };
}
