import { square } from '../../exact';
import type { Settings } from '../../settings';
import type { Scope } from '../evidence/codes';
import { scatterInBar } from '../figures/bar-values';
import type { Evidence } from '../evidence/evidence';
import type { Figure } from '../figures/figure';
import { pooledSd } from '../numbers/intervals';
import type { Limit } from '../figures/limit';
import { A_STEP_DOWN, CP } from '../remedy/rules';
import { allStruck, ifStruck } from '../figures/stroke-groups';
import { judgedIfEnough } from '../verdict';
import type { JudgedMeasure, LimitAt } from './measure';

/**
 * Control: standard deviation of the deviations about the mean of their (variation, place), pooled over n - groups,
 * ms. A habit (a place that is always late) is not in it; that is `shape`. Wrong hands stay in, except in a hand's own
 * row. Under 8 strokes: too few. The interval knows that slow drifts make neighbours lean on each other
 * (`drift-factor.ts`). Holds up to 8 % of the mean gap, at least 8 and at most 16 ms; not yet over twice.
 * Source: common practice.
 */
export const scatter: JudgedMeasure<'scatter', null> = {
  key: 'scatter',
  of: 'hands too',
  verdict: 'names',
  about: 'take',
  remedy: {
    rule: 'slower',
    tempoShare: A_STEP_DOWN,
    source: `${CP}; spread of timing grows with the effort`,
  },
  live: 'scatter',
  column: { rank: 9, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      limit,
      limitGoesBy: 'the gap',
      estimate,
      groups: allStruck,
      badness: (evidence) =>
        ifStruck(evidence, (i) => square(evidence.deviationMs[i] - evidence.timing.placeMeanMs(i))),
      inBar: scatterInBar,
      picture: 'timing by place',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

function limit(settings: Settings, { gapMs }: LimitAt): Limit {
  const share = (settings['scatter.holdsPercent'] / 100) * gapMs;
  const holds = Math.min(settings['scatter.holdsMostMs'], Math.max(settings['scatter.holdsLeastMs'], share));
  return { ideal: 0, holds, notYet: holds * settings['scatter.notYetFactor'], twoSided: false };
}

function estimate(evidence: Evidence, scope: Scope): Figure {
  const places = evidence.timing.places(scope);
  const { settings } = evidence.graded;
  return judgedIfEnough(
    () => pooledSd(places, evidence.timing.driftFactor),
    [places.reduce((sum, place) => sum + place.length, 0)],
    'few.spread',
    () => limit(settings, { gapMs: evidence.timing.meanGapMs(scope) ?? 0 }),
    settings,
  );
}
