import type { Settings } from '../../settings';
import type { Scope } from '../evidence/codes';
import { dueOfKinds, type Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { linesIn, softHeightLimit } from '../evidence/heights';
import { medianEstimate } from '../numbers/intervals';
import { areDue, softKinds } from '../figures/levels-compared';
import { oneSided, type Limit } from '../figures/limit';
import { ifStruck, isStruck, ofKinds } from '../figures/stroke-groups';
import { judgedIfEnough, plainIfEnough } from '../verdict';
import { AS_IT_WAS, CP } from '../remedy/rules';
import type { JudgedMeasure, LimitAt } from './measure';

const limit = (settings: Settings, { heights }: Pick<LimitAt, 'heights'>): Limit =>
  heights === undefined ? oneSided(settings, 'softness') : softHeightLimit(heights);

/**
 * Median level of the soft strokes, dB re velocity 127; of the ghost notes alone where the phrase has taps and ghosts.
 * Lower is softer. Wrong hands stay in, except in a hand's own row. Under 4 strokes: too few. Ends of the interval:
 * exact bootstrap distribution of the median. Where the rig has heights it is judged against them: half-way from low
 * to half holds, over half is not yet. In a phrase without any accent or ghost note it has no verdict.
 * @example taps of velocity 40 and no others: 40·log10(40/127) = -20.07 dB, which holds (-16 or softer)
 * Source: common practice.
 */
export const softness: JudgedMeasure<'softness', null> = {
  key: 'softness',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  remedy: {
    rule: 'accents off',
    tempoShare: AS_IT_WAS,
    source: `${CP}: taps are set low without accents`,
  },
  live: 'soft level',
  column: { rank: 2, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate,
      groups: (evidence) => {
        const isSoft = ofKinds(evidence, softKinds(evidence));
        return [{ name: 'soft', has: (i) => isStruck(evidence, i) && isSoft(i) }];
      },
      badness: (evidence) =>
        ifStruck(evidence, (i) => evidence.levelDb[i], ofKinds(evidence, softKinds(evidence))),
      picture: 'accents and soft',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const kinds = softKinds(evidence);
  if (!areDue(evidence, scope, kinds)) return undefined;
  const levels = evidence.levels.select(scope, kinds);
  const { settings } = evidence.graded;
  // How loud a roll is, is the player's choice.
  if (dueOfKinds(evidence, {}, ['accent', 'ghost']) === 0) {
    return plainIfEnough(() => medianEstimate(levels), [levels.n], settings['few.group']);
  }
  const heights = linesIn(evidence, scope);
  return judgedIfEnough(
    () => medianEstimate(levels),
    [levels.n],
    'few.group',
    () => limit(settings, heights === undefined ? {} : { heights }),
    settings,
  );
}
