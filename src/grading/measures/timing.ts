import type { Scope } from '../codes';
import { dueOfFact, dueOfKinds, variationsOf, type Evidence } from '../evidence';
import { meanEstimate, pooledSd } from '../intervals';
import { limitOf } from '../limits';
import { fact } from '../phrase-facts';
import { mean, sampleSd } from '../statistics';
import { modelDoubleGap, modelLag } from '../time-figures';
import type { Figure } from '../types';
import { judgedIfEnough, plainIfEnough, unjudged } from '../verdict';

/**
 * Control: standard deviation of the deviations about the mean of their (variation, place), pooled over n - groups,
 * ms. A habit (a place that is always late) is not in it; that is `shape`. Wrong hands stay in, except in a hand's own
 * row. Under 8 strokes: too few. The interval knows that slow drifts make neighbours lean on each other (`drift-factor.ts`). Holds up to 8 % of the mean gap, at least 8 and at most 16 ms; not yet over twice.
 * Source: common practice.
 */
export function scatter(evidence: Evidence, scope: Scope): Figure {
  const places = evidence.timing.places(scope);
  const { settings } = evidence.graded;
  return judgedIfEnough(
    () => pooledSd(places, evidence.timing.driftFactor),
    [places.reduce((sum, place) => sum + place.length, 0)],
    settings['few.spread'],
    () => limitOf('scatter', settings, evidence.timing.meanGapMs(scope) ?? 0),
  );
}

/**
 * How much later the right hand comes than the left, ms; negative: right earlier. The time model's term
 * (`time-model.ts`), so neither a swing nor wide doubles are called a hand. Wrong hands and unisons are left out. Under 4
 * strokes of a hand, or under four bars: too few. Where swing would pass for it, its limits are at least those of swing.
 * @returns undefined where only one hand is due
 * @example right 2 ms late, left 10 ms early: +12 ms. Professionals: left about 10 ms early, right 2 (Fujii et al. 2011)
 */
export function lag(evidence: Evidence, scope: Scope): Figure | undefined {
  const [right, left] = [
    { ...scope, hand: 'R' },
    { ...scope, hand: 'L' },
  ] as const;
  const all = ['accent', 'tap', 'ghost'] as const;
  if (dueOfKinds(evidence, right, all) === 0 || dueOfKinds(evidence, left, all) === 0) return undefined;
  return modelLag(evidence, scope);
}

/**
 * How late the second notes of doubles come, % of the time between the notes; positive: the double is too wide. The time
 * model's term (`time-model.ts`), so neither a swing nor a late hand is called a double. A double is exactly two
 * neighbouring slots of one hand in one bar, of any kinds. Under 8 doubles, or under four bars: too few.
 * @returns undefined where no double is due
 * @example 125 ms due, 135 ms played: +8 %
 * Source: common practice.
 */
export function doubleGap(evidence: Evidence, scope: Scope): Figure | undefined {
  if (dueOfFact(evidence, scope, fact.double) === 0) return undefined;
  return modelDoubleGap(evidence, scope);
}

/** Mean deviation, ms, the estimated offset in it; negative: early. No verdict. Under 4 strokes: too few. */
export function asynchrony(evidence: Evidence, scope: Scope): Figure {
  const all = evidence.timing.all(scope);
  return plainIfEnough(() => meanEstimate(all), [all.length], evidence.graded.settings['few.group']);
}

/** A habit: standard deviation of the mean deviations of the (variation, place)s, ms. No verdict, no interval. */
export function shape(evidence: Evidence, scope: Scope): Figure {
  const places = evidence.timing.places(scope);
  const n = [places.reduce((sum, place) => sum + place.length, 0)];
  const value = sampleSd(places.map((place) => mean(place) ?? 0));
  if (value === undefined || n[0] < evidence.graded.settings['few.spread'])
    return unjudged('too few strokes', n);
  return { value, interval: null, n };
}

/**
 * Mean interval beginning with an accent, against nominal, %; positive: the accent is held longer. To the next slot,
 * both matched. No verdict. Under 4 intervals: too few.
 * @returns undefined where no accent is due
 */
export function accentStretch(evidence: Evidence, scope: Scope): Figure | undefined {
  if (dueOfKinds(evidence, scope, ['accent']) === 0) return undefined;
  const percent = ([] as number[]).concat(
    ...variationsOf(evidence, scope).map((v) => evidence.movement.stretches[v]),
  );
  return plainIfEnough(() => meanEstimate(percent), [percent.length], evidence.graded.settings['few.group']);
}
