import type { Hand } from '../../stroke';
import type { Scope } from '../codes';
import { dueOfFact, variationsOf, type Evidence } from '../evidence';
import type { Estimate } from '../intervals';
import { limitOf } from '../limits';
import { fact, type CarriedTerm } from '../phrase-facts';
import { partialMean } from '../soft-model';
import type { Figure } from '../types';
import { judged, plain, unjudged } from '../verdict';

/** Measures that are a term of the soft-stroke model. */
export type TermKey = 'leakBefore' | 'leakAfter' | 'spill' | 'fade';

export const termOf: Readonly<Record<TermKey, CarriedTerm>> = {
  leakBefore: 'before',
  leakAfter: 'after',
  spill: 'spill',
  fade: 'second',
};
const hands: readonly Hand[] = ['R', 'L'];

/**
 * A term of the soft-stroke model (`soft-model.ts`), dB. `leakBefore`: how much louder a hand's soft stroke is that
 * prepares its own accent; `leakAfter`: that follows it; `spill`: that lies beside the other hand's accent; `fade`:
 * the second note of a soft double less the first. Positive is louder. For the take the term itself; for a variation
 * the mean of its own strokes' levels less the model without the term, once what the variation is loud by all over is
 * taken off (`all-over.ts`).
 *
 * The larger of the hands (`fade`: the farther from 0), among hands with enough strokes. Wrong hands are left out.
 * Under 4 strokes that carry the term (`fade` 8 doubles): too few. Where the phrase cannot tell the term from the
 * others: not measured ("play one bar without accents first").
 * @returns undefined where no such stroke is due
 * @example in `rlrR lrlL` the third stroke 5 dB above the other taps: leakBefore R 5
 */
export function termFigure(evidence: Evidence, scope: Scope, key: TermKey): Figure | undefined {
  const term = termOf[key];
  const due = (scope.hand === undefined ? hands : [scope.hand]).filter(
    (hand) => dueOfFact(evidence, { ...scope, hand }, fact[term]) > 0,
  );
  if (due.length === 0) return undefined;
  const { settings } = evidence.graded;
  const fewest = settings[key === 'fade' ? 'few.doubles' : 'few.group'];
  const counted = due.map((hand) => ({ hand, n: countCarriers(evidence, scope, hand, term) }));
  const enough = counted.filter(({ hand, n }) => n >= fewest && evidence.models[hand].fit !== undefined);
  if (enough.length === 0) {
    return unjudged(
      'too few strokes',
      counted.map(({ n }) => n),
    );
  }
  const told = enough.flatMap(({ hand, n }) => {
    const estimate = estimateOf(evidence, scope, hand, term);
    return estimate === undefined ? [] : [{ hand, n, estimate }];
  });
  if (told.length === 0) {
    return unjudged(
      'not measured',
      enough.map(({ n }) => n),
    );
  }
  const size = (estimate: Estimate): number => (key === 'fade' ? Math.abs(estimate.value) : estimate.value);
  const worse = told.reduce((worst, next) => (size(next.estimate) > size(worst.estimate) ? next : worst));
  const figure =
    key === 'fade' && givesWay(evidence, scope, worse)
      ? plain(worse.estimate, [worse.n])
      : judged(worse.estimate, [worse.n], limitOf(key, settings, 0));
  return { ...figure, hand: worse.hand };
}

/**
 * A second note that is louder than its first is no fade, where all such notes of the scope carry one leak or spill too:
 * that is what lifts them, and what is named.
 */
function givesWay(
  evidence: Evidence,
  scope: Scope,
  { hand, estimate }: { readonly hand: Hand; readonly estimate: Estimate },
): boolean {
  if (estimate.value <= 0) return false;
  const { rows, carriers } = evidence.models[hand];
  const seconds = variationsOf(evidence, scope).flatMap((v) => carriers.second[v]);
  return leaks.some(
    (term) =>
      seconds.every((row) => rows[row][term]) && estimateOf(evidence, scope, hand, term) !== undefined,
  );
}

const leaks = ['after', 'before', 'spill'] as const satisfies readonly CarriedTerm[];

/** Strokes of the hand that carry the term, within the scope. */
function countCarriers(evidence: Evidence, scope: Scope, hand: Hand, term: CarriedTerm): number {
  const byVariation = evidence.models[hand].carriers[term];
  return variationsOf(evidence, scope).reduce((sum, v) => sum + byVariation[v].length, 0);
}

/** A hand's term within the scope, dB; undefined where it can't be told. */
export function estimateOf(
  evidence: Evidence,
  scope: Scope,
  hand: Hand,
  term: CarriedTerm,
): Estimate | undefined {
  const { fit, rows, carriers } = evidence.models[hand];
  if (fit === undefined) return undefined;
  if (scope.variation === undefined) return fit.terms[term] ?? undefined;
  return partialMean(fit, rows, term, carriers[term][scope.variation]);
}
