import { square } from '../../exact';
import type { Settings } from '../../settings';
import { who, type Scope } from '../codes';
import type { Evidence } from '../evidence';
import type { Figure } from '../figure';
import { graceGapMs, gracedStrokes, gracesBySlot, gracesIn, type Graces } from '../grace-gaps';
import { pooledSd, welchDifference, type Estimate } from '../intervals';
import { downToNought, type Limit } from '../limit';
import { CP, TWO_STEPS_DOWN } from '../remedy/rules';
import { judged, judgedIfEnough, unjudged } from '../verdict';
import type { Badness, JudgedMeasure } from './measure';

const limit = (settings: Settings): Limit => downToNought(settings, 'flamEvenness');

/**
 * Evenness of flams and drags, judged before their width: standard deviation of the gaps about the mean of their hand
 * (that of the stroke they lead to), ms, pooled; or how much wider one hand's gaps are than the other's, ms by their
 * means, where that stands worse: then `hand` is the wider. Under 8 graces (for the difference 4 a hand): too few. Holds
 * up to 7 ms, not yet over 15. Interval of the difference: Welch.
 * Source: common practice.
 */
export const flamEvenness: JudgedMeasure<'flamEvenness', null> = {
  key: 'flamEvenness',
  of: 'hands too',
  verdict: 'names',
  remedy: { rule: 'slower', tempoShare: TWO_STEPS_DOWN, source: CP },
  live: 'early or late',
  column: { rank: 11, on: 'page and terminal' },
  figures: [
    {
      part: null,
      unit: 'ms',
      madeOf: 'times',
      limit,
      estimate,
      groups: gracedStrokes,
      badness: offTheMean,
      picture: 'levels by kind',
      mirrored: 'same',
      reversed: 'same',
    },
  ],
};

/** @returns undefined where no grace is due */
function estimate(evidence: Evidence, scope: Scope): Figure | undefined {
  const graces = gracesIn(evidence, scope);
  if (graces === undefined) return undefined;
  const { settings } = evidence.graded;
  if (graces.merged) return unjudged('not measured', [graces.gapsMs.length]);
  const spread = judgedIfEnough(
    () => pooledSd(graces.gapsByHand.filter((gaps) => gaps.length > 0)),
    [graces.gapsMs.length],
    settings['few.spread'],
    () => limit(settings),
  );
  const apart = betweenHands(graces, settings);
  const worse = apart !== undefined && (apart.supported ?? 1) < (spread.supported ?? 1);
  return spread.value !== null && worse ? apart : spread;
}

/** How much wider one hand's gaps are; undefined where a hand has too few. */
function betweenHands({ gapsByHand }: Graces, settings: Settings): Figure | undefined {
  const [right, left] = gapsByHand;
  const few = settings['few.group'];
  if (right === undefined || left === undefined || right.length < few || left.length < few) return undefined;
  const found = welchDifference(right, left);
  if (found === undefined) return undefined;
  const { value, interval } = found;
  const size: Estimate = value < 0 ? { value: -value, interval: [-interval[1], -interval[0]] } : found;
  return {
    ...judged(size, [right.length, left.length], { ...limit(settings), twoSided: true }),
    hand: value < 0 ? 'L' : 'R',
  };
}

/** How far a gap lies from the mean of all; of the wider hand the gap itself. */
function offTheMean(evidence: Evidence, { hand }: Figure): Badness {
  const found = gracesBySlot(evidence);
  const gaps = [...found.keys()].flatMap((i) => graceGapMs(evidence, found, i) ?? []);
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  return (i) => {
    const gap = graceGapMs(evidence, found, i);
    if (gap === undefined) return undefined;
    if (hand === undefined) return square(gap - mean);
    return evidence.who[i] === who[hand] ? gap : undefined;
  };
}
