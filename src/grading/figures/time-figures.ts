import type { Settings } from '../../settings';
import type { Hand } from '../../stroke';
import { who, type Scope } from '../evidence/codes';
import type { Evidence } from '../evidence/evidence';
import { meanEstimate, type Estimate } from '../numbers/intervals';
import { aboutNought, shareOfGap, type Limit } from './limit';
import { doublesOf } from '../evidence/movement';
import { fact } from '../facts/phrase-facts';
import type { Figure } from './figure';
import { judged, unjudged, type Fewest } from '../verdict';

/** `lag` by the time model, for the take or a variation: right less left, ms. */
export function modelLag(evidence: Evidence, { variation }: Scope): Figure {
  const { graded, time } = evidence;
  const { settings } = graded;
  const term = variation === undefined ? undefined : time.lags[variation];
  const n = variation === undefined ? time.n.lag : handsOf(evidence, variation);
  const limit = (): Limit => lagLimit(evidence);
  if (time.model?.lag === null) return unjudged('not measured', n);
  const estimate = variation === undefined ? time.model?.lag : term?.estimate;
  return figureOf(estimate ?? undefined, n, 'few.group', limit, settings);
}

/** `doubleGap` by the time model, for the take, a variation or a hand: % of the time between the notes. */
export function modelDoubleGap(evidence: Evidence, scope: Scope): Figure {
  const { graded, time } = evidence;
  const { settings } = graded;
  const { doubleMs = 0 } = time;
  const n = [doublesOf(evidence.movement, evidence.names.length, scope)];
  if (time.model?.second === null) return unjudged('not measured', n);
  const ms =
    scope.hand !== undefined
      ? secondOfHand(evidence, scope.hand)
      : scope.variation !== undefined
        ? time.seconds[scope.variation]?.estimate
        : (time.model?.second ?? undefined);
  const estimate = ms && inPercent(ms, doubleMs);
  return figureOf(estimate, n, 'few.doubles', () => shareOfGap(settings, doubleMs), settings);
}

/**
 * The limits of `lag`; where swing could pass for it, those of swing where they are wider: a player may swing.
 */
function lagLimit({ graded: { settings }, time }: Evidence): Limit {
  const limit = aboutNought(settings, 'lag');
  if (time.model?.notToldApart.includes('lag') !== true) return limit;
  const gapMs = time.straightGapMs ?? 0;
  const inMs = shareOfGap(settings, gapMs);
  return {
    ...limit,
    holds: Math.max(limit.holds, (inMs.holds * gapMs) / 100),
    notYet: Math.max(limit.notYet, (inMs.notYet * gapMs) / 100),
  };
}

/** A figure with its verdict, or too few strokes where a group has under `fewest`. */
export function figureOf(
  estimate: Estimate | undefined,
  n: readonly number[],
  fewest: Fewest,
  limit: () => Limit,
  settings: Settings,
): Figure {
  if (estimate === undefined || n.some((count) => count < settings[fewest]))
    return unjudged('too few strokes', n);
  return judged(estimate, n, limit(), settings);
}

/** Strokes of each hand of a variation that the model has, R and L. */
function handsOf(evidence: Evidence, variation: number): [number, number] {
  const n: [number, number] = [0, 0];
  for (let i = 0; i < evidence.who.length; i++) {
    const by = evidence.who[i];
    if (evidence.variation[i] === variation && evidence.time.isRow[i] === 1) n[by]++;
  }
  return n;
}

/**
 * A hand's doubles: the take's term, and by bar what the hand's second notes have beyond it against the hand's other
 * strokes. Mean of the bars, with Student's t.
 */
function secondOfHand(evidence: Evidence, hand: Hand): Estimate | undefined {
  const { time, facts } = evidence;
  const term = time.model?.second?.value;
  if (term === undefined) return undefined;
  const values = evidence.graded.grid.bars.flatMap(({ firstSlot, slots }) => {
    let [seconds, sum, others, otherSum] = [0, 0, 0, 0];
    for (let i = firstSlot; i < firstSlot + slots; i++) {
      const residual = time.residualMs[i];
      if (Number.isNaN(residual) || evidence.who[i] !== who[hand]) continue;
      if ((facts[i] & fact.double) !== 0) {
        seconds++;
        sum += residual;
      } else {
        others++;
        otherSum += residual;
      }
    }
    return seconds === 0 || others === 0 ? [] : [term + sum / seconds - otherSum / others];
  });
  return meanEstimate(values);
}

function inPercent({ value, interval: [low, high] }: Estimate, of: number): Estimate {
  const percent = (ms: number): number => (100 * ms) / of;
  return { value: percent(value), interval: [percent(low), percent(high)] };
}
