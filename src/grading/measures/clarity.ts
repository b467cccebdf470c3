import type { Settings } from '../../settings';
import { soft, type Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { clarityEstimate } from '../numbers/intervals';
import { accents, areDue, withinSurface } from '../figures/levels-compared';
import { oneSided, type Limit } from '../figures/limit';
import { accentsAndSoft, ifStruck, isAccent } from '../figures/stroke-groups';
import { judgedIfEnough } from '../verdict';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => oneSided(settings, 'clarity');

/**
 * Probability that an accent is louder than a soft stroke, ties half, over all pairs (area under the ROC curve).
 * Under 4 of either: too few. Interval: DeLong.
 * @example every accent louder than every tap: 1
 */
export const clarity: JudgedMeasure<'clarity', null> = {
  key: 'clarity',
  of: 'hands too',
  verdict: 'names when nothing else is out',
  about: 'kind',
  remedy: {
    rule: 'that bar alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: accents are set against the same bar without them`,
  },
  live: 'contrast',
  figures: [
    {
      part: null,
      unit: 'ratio',
      madeOf: 'levels',
      limit,
      estimate,
      groups: accentsAndSoft,
      badness: (evidence) =>
        ifStruck(
          evidence,
          (i) => -evidence.levelDb[i],
          (i) => isAccent(evidence, i),
        ),
      picture: 'accents and soft',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  if (!areDue(evidence, scope, accents, soft)) return undefined;
  const { settings } = evidence.graded;
  return withinSurface(evidence, scope, [accents, soft], (within) => {
    const loud = evidence.levels.select(within, accents);
    const quiet = evidence.levels.select(within, soft);
    return judgedIfEnough(
      () => clarityEstimate(loud, quiet),
      [loud.n, quiet.n],
      'few.group',
      () => limit(settings),
      settings,
    );
  });
}
