import type { Settings } from '../../settings';
import type { Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { accents, fromTheMiddle, spread, withoutVerdict } from '../figures/levels-compared';
import { downToNought, type Limit } from '../figures/limit';
import { isStruck, ofKinds } from '../figures/stroke-groups';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => downToNought(settings, 'accentSpread');

/**
 * 1.4826·MAD of the levels of the accents, dB. Under 8 strokes: too few. Without a verdict where accents clip.
 * Source: common practice.
 */
export const accentSpread: JudgedMeasure<'accentSpread', null> = {
  key: 'accentSpread',
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
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate,
      groups: (evidence) => {
        const is = ofKinds(evidence, accents);
        return [{ name: 'accent', has: (i) => isStruck(evidence, i) && is(i) }];
      },
      badness: (evidence, _figure, variation) => fromTheMiddle(evidence, variation, accents),
      picture: 'accents and soft',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const figure = spread(evidence, scope, accents, limit(evidence.graded.settings));
  if (figure === undefined || figure.value === null) return figure;
  return evidence.clipping.touches(scope) ? withoutVerdict(figure) : figure;
}
