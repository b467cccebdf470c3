import { termInBar } from '../figures/bar-values';
import type { Settings } from '../../settings';
import { oneSided, type Limit } from '../figures/limit';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import { termBadness, termFigure, termGroups } from '../figures/term-figure';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => oneSided(settings, 'spill');

/**
 * How much a hand's soft stroke rises beside the other hand's accent, dB (`term-figure.ts`): the larger of the hands.
 * Source: common practice.
 */
export const spill: JudgedMeasure<'spill', null> = {
  key: 'spill',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  shadows: ['balanceSoft'],
  remedy: {
    rule: 'other hand resting',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: the hand that comes along learns to wait`,
  },
  live: 'soft level',
  column: { rank: 6, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate: (evidence, scope) => termFigure(evidence, scope, 'spill', limit(evidence.graded.settings)),
      groups: (evidence) => termGroups(evidence, 'spill', 'beside accent'),
      badness: (evidence, figure) => termBadness(evidence, figure, 'spill', 1),
      inBar: termInBar('spill'),
      picture: 'levels by kind',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};
