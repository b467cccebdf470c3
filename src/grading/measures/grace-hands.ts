import type { Settings } from '../../settings';
import type { Hand } from '../../stroke';
import { who, type Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { graceGapMs, gracedStrokes, gracesBySlot, gracesIn, isGraceDue } from '../figures/grace-gaps';
import { welchDifference } from '../numbers/intervals';
import { aboutNought, type Limit } from '../figures/limit';
import { AS_IT_WAS, CP } from '../remedy/rules';
import { judged, unjudged } from '../verdict';
import type { Badness, JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => aboutNought(settings, 'graceHands');

/**
 * How much farther ahead graces come that lead to the right hand than those that lead to the left, ms, by the means of
 * their gaps; flams and drags apart, and each place of a drag apart: the farthest from 0. Under 4 graces a hand: too few.
 * Holds within 10 ms, not yet beyond 20. Interval: Welch.
 * @example graces before right strokes 44 ms ahead, before left strokes 30: +14 ms
 * Source: common practice.
 */
export const graceHands: JudgedMeasure<'graceHands', null> = {
  key: 'graceHands',
  of: 'take and variations',
  verdict: 'names',
  about: 'hand',
  remedy: {
    rule: 'accenting hand alone',
    tempoShare: AS_IT_WAS,
    source: `${CP}: flams of one hand in a row, then of the other, are matched to each other`,
  },
  live: 'early or late',
  column: { rank: 12, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      limit,
      estimate,
      groups: (evidence) => gracedStrokes(evidence),
      badness: ofTheWider,
      picture: 'grace notes',
      mirrored: 'flips',
      reversed: 'same',
    },
  ],
};

/** @returns undefined where graces lead to one hand only, or to none */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const graces = gracesIn(evidence, scope);
  if (graces === undefined) return undefined;
  const isDue = (hand: Hand): boolean =>
    (['flam', 'drag'] as const).some((kind) => isGraceDue(evidence, { ...scope, hand }, kind));
  if (!isDue('R') || !isDue('L')) return undefined;
  const { settings } = evidence.graded;
  const few = settings['few.group'];
  const n = [
    graces.places.reduce((sum, { R }) => sum + R.length, 0),
    graces.places.reduce((sum, { L }) => sum + L.length, 0),
  ];
  if (graces.merged) return unjudged('not measured', n);
  const apart = graces.places.flatMap(({ R, L }) => {
    const estimate = R.length < few || L.length < few ? undefined : welchDifference(R, L);
    return estimate === undefined ? [] : [{ estimate, n: [R.length, L.length] }];
  });
  if (apart.length === 0) return unjudged('too few strokes', n);
  const farthest = apart.reduce((most, next) =>
    Math.abs(next.estimate.value) > Math.abs(most.estimate.value) ? next : most,
  );
  return judged(farthest.estimate, farthest.n, limit(settings), settings);
}

/** The gap itself, of the hand whose graces come farther ahead. */
function ofTheWider(evidence: Evidence, { value }: Figure): Badness {
  const found = gracesBySlot(evidence);
  const wider = (value ?? 0) < 0 ? who.L : who.R;
  return (i) => (evidence.who[i] === wider ? graceGapMs(evidence, found, i) : undefined);
}
