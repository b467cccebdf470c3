import { doublesInBar } from '../figures/bar-values';
import type { Scope } from '../evidence/codes';
import { dueOfFact, type Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { shareOfGap } from '../figures/limit';
import { doublePercent } from '../evidence/movement';
import { fact } from '../facts/phrase-facts';
import { CP, TWO_STEPS_DOWN } from '../remedy/rules';
import { isByItsHand, sideOf } from '../figures/stroke-groups';
import { modelDoubleGap } from '../figures/time-figures';
import type { JudgedMeasure, StrokeGroup } from './measure';

/**
 * How late the second notes of doubles come, % of the time between the notes; positive: the double is too wide. The time
 * model's term (`time-model.ts`), so neither a swing nor a late hand is called a double. A double is exactly two
 * neighbouring slots of one hand in one bar, of any kinds. Under 8 doubles, or under four bars: too few.
 * @example 125 ms due, 135 ms played: +8 %
 * Source: common practice.
 */
export const doubleGap: JudgedMeasure<'doubleGap', null> = {
  key: 'doubleGap',
  of: 'hands too',
  verdict: 'names',
  about: 'kind',
  remedy: {
    rule: 'slower',
    tempoShare: TWO_STEPS_DOWN,
    source: `${CP}: doubles are opened slower`,
  },
  live: 'early or late',
  figures: [
    {
      part: null,
      unit: '%',
      madeOf: 'times',
      limit: (settings, { gapMs }) => shareOfGap(settings, gapMs),
      limitGoesBy: 'the gap',
      estimate,
      groups,
      badness: (evidence, figure) => {
        const side = sideOf(figure);
        return (i) => (isDouble(evidence, i) ? side * doublePercent(evidence, i) : undefined);
      },
      inBar: doublesInBar,
      picture: 'timing by place',
      mirrored: 'same',
      reversed: 'flips',
    },
  ],
};

/** @returns undefined where no double is due */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  return dueOfFact(evidence, scope, fact.double) === 0 ? undefined : modelDoubleGap(evidence, scope);
}

function groups(evidence: Evidence): readonly StrokeGroup[] {
  return [
    { name: 'second', has: (i) => isDouble(evidence, i) },
    { name: 'first', has: (i) => isDouble(evidence, i + 1) },
  ];
}

/** Slot `i` is the second note of a double of which both were played by their hand. */
function isDouble(evidence: Evidence, i: number): boolean {
  if (i === 0 || (evidence.facts[i] & fact.double) === 0) return false;
  return isByItsHand(evidence, i) && isByItsHand(evidence, i - 1);
}
