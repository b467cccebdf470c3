import { gracesInBar } from '../figures/bar-values';
import { gracedStrokes } from '../figures/grace-gaps';
import { widthBadness, widthFigure, widthLimit } from '../figures/grace-width';
import { CP, TWO_STEPS_DOWN } from '../remedy/rules';
import type { JudgedMeasure } from './measure';

/**
 * Width of flams: median gap from the grace to its stroke, ms. Ideal 40; holds 15–55, not yet outside 8–80, the upper
 * limits never over half the time to the stroke before. Under 4 flams: too few.
 * @example graces 30 ms ahead: holds; 70 ms: they stand apart
 * Source: common practice; in line with a published data set of drummers' hits: flams 42 ms, sd 8; drags 58 and 59, sd 6 and 12.
 */
export const flamGap: JudgedMeasure<'flamGap', null> = {
  key: 'flamGap',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  remedy: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: CP },
  live: 'early or late',
  column: { rank: 13, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      limit: (settings, at) => widthLimit('flam', settings, at, at.beforeMs),
      limitGoesBy: 'the side',
      estimate: (evidence, scope) => widthFigure(evidence, scope, 'flam'),
      groups: (evidence) => gracedStrokes(evidence, 'flam'),
      badness: (evidence, figure) => widthBadness(evidence, figure, 'flam'),
      inBar: gracesInBar((graces) => graces === 1),
      picture: 'grace notes',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};
