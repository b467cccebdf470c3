import type { Settings } from '../../settings';
import { who, type Scope } from '../evidence/codes';
import { balanceInBar } from '../figures/bar-values';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { accents, balance, withoutVerdict } from '../figures/levels-compared';
import { aboutNought, type Limit } from '../figures/limit';
import { ifStruck, isAccent, isByItsHand, sideOf } from '../figures/stroke-groups';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => aboutNought(settings, 'balanceAccent');

/**
 * Median right minus median left within the accents, dB; positive: right louder. Wrong hands are left out. Under 4 of a
 * hand: too few. Without a verdict where accents clip.
 * Source: common practice.
 */
export const balanceAccent: JudgedMeasure<'balanceAccent', null> = {
  key: 'balanceAccent',
  of: 'take and variations',
  verdict: 'names',
  about: 'hand',
  remedy: {
    rule: 'accenting hand alone',
    tempoShare: A_STEP_DOWN,
    source: `${CP}: each hand's accent is heard by itself, then against the other's`,
  },
  live: 'balance',
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate,
      groups: (evidence) => [
        { name: 'accent', has: (i) => isByItsHand(evidence, i) && isAccent(evidence, i) },
      ],
      badness: (evidence, figure) => {
        const side = sideOf(figure);
        return ifStruck(
          evidence,
          (i) => side * evidence.levelDb[i],
          (i) => evidence.who[i] === who.R && isAccent(evidence, i),
        );
      },
      inBar: balanceInBar(() => accents, true),
      picture: 'accents and soft',
      mirrored: 'flips',
      reversed: 'same',
    },
  ],
};

/** @returns undefined where one hand has no accent due */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const figure = balance(evidence, scope, accents, limit(evidence.graded.settings));
  if (figure === undefined || figure.value === null) return figure;
  return evidence.clipping.touches(scope) ? withoutVerdict(figure) : figure;
}
