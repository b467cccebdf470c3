import type { Settings } from '../../settings';
import { areDue, medianGap, withinSurface } from '../figures/levels-compared';
import { oneSided, type Limit } from '../figures/limit';
import { ifStruck, isStruck, ofKinds } from '../figures/stroke-groups';
import { AS_IT_WAS, CP } from '../remedy/rules';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => oneSided(settings, 'ghostContrast');
const kinds = [['tap'], ['ghost']] as const;

/**
 * Median tap minus median ghost note, dB; positive: taps louder, as they should be. Under 4 of either: too few.
 * Source: common practice.
 */
export const ghostContrast: JudgedMeasure<'ghostContrast', null> = {
  key: 'ghostContrast',
  of: 'take and variations',
  verdict: 'names',
  about: 'kind',
  remedy: {
    rule: 'accents off',
    tempoShare: AS_IT_WAS,
    source: `${CP}: two soft heights are told apart without accents`,
  },
  live: 'soft level',
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate: (evidence, scope) =>
        areDue(evidence, scope, ...kinds)
          ? withinSurface(evidence, scope, kinds, (within) =>
              medianGap(evidence, within, kinds, limit(evidence.graded.settings)),
            )
          : undefined,
      groups: (evidence) =>
        kinds.map(([name]) => {
          const isOne = ofKinds(evidence, [name]);
          return { name, has: (i) => isStruck(evidence, i) && isOne(i) };
        }),
      badness: (evidence) => ifStruck(evidence, (i) => -evidence.levelDb[i], ofKinds(evidence, ['tap'])),
      picture: 'accents and soft',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};
