import { lagInBar } from '../figures/bar-values';
import { who, type Scope } from '../evidence/codes';
import { dueOfKinds, type Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { aboutNought } from '../figures/limit';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import { allTimed, ifStruck, sideOf } from '../figures/stroke-groups';
import { modelLag } from '../figures/time-figures';
import type { JudgedMeasure } from './measure';

/**
 * How much later the right hand comes than the left, ms; negative: right earlier. The time model's term
 * (`time-model.ts`), so neither a swing nor wide doubles are called a hand. Wrong hands and unisons are left out. Under 4
 * strokes of a hand, or under four bars: too few. Where swing would pass for it, its limits are at least those of swing.
 * @example right 2 ms late, left 10 ms early: +12 ms. Professionals: left about 10 ms early, right 2 (Fujii et al. 2011)
 */
export const lag: JudgedMeasure<'lag', null> = {
  key: 'lag',
  of: 'take and variations',
  verdict: 'names',
  about: 'hand',
  remedy: { rule: 'accents off', tempoShare: A_STEP_DOWN, source: `${CP}: hands are evened at one height` },
  live: 'early or late',
  column: { rank: 8, on: 'terminal' },
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      limit: (settings) => aboutNought(settings, 'lag'),
      estimate,
      groups: allTimed,
      badness: (evidence, figure) => {
        const side = sideOf(figure);
        return ifStruck(
          evidence,
          (i) => side * evidence.deviationMs[i],
          (i) => evidence.who[i] === who.R,
        );
      },
      inBar: lagInBar,
      picture: 'timing by place',
      mirrored: 'flips',
      reversed: 'flips',
    },
  ],
};

/** @returns undefined where only one hand is due */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const [right, left] = [
    { ...scope, hand: 'R' },
    { ...scope, hand: 'L' },
  ] as const;
  const all = ['accent', 'tap', 'ghost'] as const;
  if (dueOfKinds(evidence, right, all) === 0 || dueOfKinds(evidence, left, all) === 0) return undefined;
  return modelLag(evidence, scope);
}
