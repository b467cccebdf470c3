import { termInBar } from '../figures/bar-values';
import type { Settings } from '../../settings';
import { oneSided, type Limit } from '../figures/limit';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import { termBadness, termFigure, termGroups } from '../figures/term-figure';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => oneSided(settings, 'leakAfter');

/**
 * How much louder a hand's soft stroke is that follows its own accent, dB (`term-figure.ts`): the stick isn't stopped. The
 * larger of the hands.
 * Source: common practice.
 */
export const leakAfter: JudgedMeasure<'leakAfter', null> = {
  key: 'leakAfter',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  shadows: ['balanceSoft'],
  remedy: {
    rule: 'accenting hand alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: the down stroke is practised by its own hand`,
  },
  live: 'leak after',
  column: { rank: 5, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate: (evidence, scope) => termFigure(evidence, scope, 'after', limit(evidence.graded.settings)),
      groups: (evidence) => termGroups(evidence, 'after', 'after accent'),
      badness: (evidence, figure) => termBadness(evidence, figure, 'after', 1),
      inBar: termInBar('after'),
      picture: 'levels by kind',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};
