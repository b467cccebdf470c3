import type { Settings } from '../../settings';
import { softKinds, fromTheMiddle, spread } from '../figures/levels-compared';
import { downToNought, type Limit } from '../figures/limit';
import { isStruck, ofKinds } from '../figures/stroke-groups';
import { AS_IT_WAS, CP } from '../remedy/rules';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => downToNought(settings, 'softSpread');

/**
 * 1.4826·MAD of the levels of the soft strokes (ghosts alone where the phrase has taps and ghosts), dB. Under 8 strokes: too few.
 * Source: common practice.
 */
export const softSpread: JudgedMeasure<'softSpread', null> = {
  key: 'softSpread',
  of: 'hands too',
  verdict: 'names when nothing else is out',
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
      estimate: (evidence, scope) =>
        spread(evidence, scope, softKinds(evidence), limit(evidence.graded.settings)),
      groups: (evidence) => {
        const is = ofKinds(evidence, softKinds(evidence));
        return [{ name: 'soft', has: (i) => isStruck(evidence, i) && is(i) }];
      },
      badness: (evidence, _figure, variation) => fromTheMiddle(evidence, variation, softKinds(evidence)),
      picture: 'accents and soft',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};
