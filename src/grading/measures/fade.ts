import type { Settings } from '../../settings';
import { aboutNought, type Limit } from '../figures/limit';
import { fact } from '../facts/phrase-facts';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import { isAccent, isByItsHand, sideOf } from '../figures/stroke-groups';
import { termBadness, termFigure, termGroups } from '../figures/term-figure';
import { termInBar } from '../figures/bar-values';
import type { Evidence } from '../evidence/evidence';
import { leakAfter } from './leak-after';
import { leakBefore } from './leak-before';
import type { JudgedMeasure, StrokeGroup } from './measure';

const limit = (settings: Settings): Limit => aboutNought(settings, 'fade');

/**
 * Second note of a double of one soft kind less its first, dB (`term-figure.ts`): the hand farther from 0. Under 8
 * doubles: too few. A positive one has no verdict where a leak or spill lifts all such notes.
 * Source: common practice.
 */
export const fade: JudgedMeasure<'fade', null> = {
  key: 'fade',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  // A soft second note makes its neighbours look loud.
  shadows: [leakBefore.key, leakAfter.key],
  remedy: {
    rule: 'accents off',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: doubles are evened at one height`,
  },
  live: 'soft level',
  column: { rank: 7, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate: (evidence, scope) => termFigure(evidence, scope, 'second', limit(evidence.graded.settings)),
      groups: (evidence) => termGroups(evidence, 'second', 'second', firstNotes(evidence)),
      badness: (evidence, figure) => termBadness(evidence, figure, 'second', sideOf(figure)),
      inBar: termInBar('second'),
      picture: 'levels by kind',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

function firstNotes(evidence: Evidence): StrokeGroup {
  const { facts } = evidence;
  const isFirst = (i: number): boolean => i + 1 < facts.length && (facts[i + 1] & fact.second) !== 0;
  return { name: 'first', has: (i) => isFirst(i) && isByItsHand(evidence, i) && !isAccent(evidence, i) };
}
