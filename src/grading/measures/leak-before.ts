import { termInBar } from '../figures/bar-values';
import type { Settings } from '../../settings';
import { oneSided, type Limit } from '../figures/limit';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import { termBadness, termFigure, termGroups } from '../figures/term-figure';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => oneSided(settings, 'leakBefore');

/**
 * How much louder a hand's soft stroke is that prepares its own accent, dB (`term-figure.ts`): the larger of the hands.
 * @example in `rlrR lrlL` the third stroke 5 dB above the other taps: leakBefore R 5
 * Source: common practice.
 */
export const leakBefore: JudgedMeasure<'leakBefore', null> = {
  key: 'leakBefore',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  shadows: ['balanceSoft'],
  remedy: {
    rule: 'that bar alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: the up stroke is heard beside the same bar without accents`,
  },
  live: 'leak before',
  column: { rank: 4, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate: (evidence, scope) => termFigure(evidence, scope, 'before', limit(evidence.graded.settings)),
      groups: (evidence) => termGroups(evidence, 'before', 'before accent'),
      badness: (evidence, figure) => termBadness(evidence, figure, 'before', 1),
      inBar: termInBar('before'),
      picture: 'levels by kind',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};
