import { gracesInBar } from '../figures/bar-values';
import { gracedStrokes } from '../figures/grace-gaps';
import { widthBadness, widthFigure, widthLimit } from '../figures/grace-width';
import { CP, TWO_STEPS_DOWN } from '../remedy/rules';
import type { JudgedMeasure } from './measure';

/**
 * Width of drags: median gap from a grace to the next stroke of its group, ms. Ideal 58; holds 25–80, not yet outside
 * 15–110. Under 4 graces: too few.
 * @example two graces 58 ms apart, as far ahead of their stroke: the ideal
 * Source: common practice; in line with a published data set of drummers' hits: flams 42 ms, sd 8; drags 58 and 59, sd 6 and 12.
 */
export const dragGap: JudgedMeasure<'dragGap', null> = {
  key: 'dragGap',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  remedy: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: CP },
  live: 'early or late',
  column: { rank: 14, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      limit: (settings, at) => widthLimit('drag', settings, at),
      limitGoesBy: 'the side',
      estimate: (evidence, scope) => widthFigure(evidence, scope, 'drag'),
      groups: (evidence) => gracedStrokes(evidence, 'drag'),
      badness: (evidence, figure) => widthBadness(evidence, figure, 'drag'),
      inBar: gracesInBar((graces) => graces > 1),
      picture: 'grace notes',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};
