import type { Settings } from '../../settings';
import type { Kind } from '../../exercises/types';
import { balanceInBar } from '../figures/bar-values';
import { soft, who, type Scope } from '../evidence/codes';
import { dueOfKinds, type Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { balance } from '../figures/levels-compared';
import { aboutNought, type Limit } from '../figures/limit';
import { ifStruck, isAccent, isByItsHand, sideOf } from '../figures/stroke-groups';
import { AS_IT_WAS, CP } from '../remedy/rules';
import type { JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => aboutNought(settings, 'balanceSoft');

/**
 * Median right minus median left within the soft strokes, dB; positive: right louder. Where the phrase has taps and
 * ghosts, within the one of which both hands have more (`kind`). Wrong hands are left out. Under 4 of a hand: too few.
 * What the rig's trims leave widens the interval; where that alone reaches the limit it is not measured.
 * @example right taps at -18, left taps at -21: +3 dB, close (2.5 holds, 5 is not yet)
 * Source: common practice.
 */
export const balanceSoft: JudgedMeasure<'balanceSoft', null> = {
  key: 'balanceSoft',
  of: 'take and variations',
  verdict: 'names',
  about: 'hand',
  remedy: {
    rule: 'accents off',
    tempoShare: AS_IT_WAS,
    source: `${CP}: hands are matched at one height`,
  },
  live: 'balance',
  column: { rank: 3, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'dB',
      madeOf: 'levels',
      limit,
      estimate,
      groups: (evidence) => [
        { name: 'soft', has: (i) => isByItsHand(evidence, i) && !isAccent(evidence, i) },
      ],
      badness: (evidence, figure) => {
        const side = sideOf(figure);
        return ifStruck(
          evidence,
          (i) => side * evidence.levelDb[i],
          (i) => evidence.who[i] === who.R && !isAccent(evidence, i),
        );
      },
      inBar: balanceInBar((evidence) => (evidence.tapsAndGhosts ? [sharedKind(evidence, {})] : soft), false),
      picture: 'accents and soft',
      mirrored: 'flips',
      reversed: 'same',
    },
  ],
};

/** @returns undefined where one hand has no soft stroke due */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const most = limit(evidence.graded.settings);
  if (!evidence.tapsAndGhosts) return balance(evidence, scope, soft, most);
  const kind = sharedKind(evidence, scope);
  const figure = balance(evidence, scope, [kind], most);
  return figure === undefined ? undefined : { ...figure, kind };
}

/** Of taps and ghosts the one of which both hands have more. */
function sharedKind(evidence: Evidence, scope: Scope): Kind {
  const shared = (kind: Kind): number =>
    Math.min(
      dueOfKinds(evidence, { ...scope, hand: 'R' }, [kind]),
      dueOfKinds(evidence, { ...scope, hand: 'L' }, [kind]),
    );
  return shared('tap') >= shared('ghost') ? 'tap' : 'ghost';
}
