import type { Hand } from '../../stroke';
import { who, type Scope } from '../evidence/codes';
import { dueOfFact, variationsOf, type Evidence } from '../evidence/evidence';
import type { Figure } from './figure';
import type { GroupName } from '../facts/group-words';
import type { Estimate } from '../numbers/intervals';
import type { Limit } from './limit';
import type { Badness, StrokeGroup } from '../measures/measure';
import { fact, type CarriedTerm } from '../facts/phrase-facts';
import { partialMean } from '../models/soft-model';
import { isAccent, isByItsHand } from './stroke-groups';
import { judged, plain, unjudged } from '../verdict';

const hands: readonly Hand[] = ['R', 'L'];

/**
 * A term of the soft-stroke model (`soft-model.ts`), dB. `before`: how much louder a hand's soft stroke is that
 * prepares its own accent; `after`: that follows it; `spill`: that lies beside the other hand's accent; `second`:
 * the second note of a soft double less the first. Positive is louder. For the take the term itself; for a variation
 * the mean of its own strokes' levels less the model without the term, once what the variation is loud by all over is
 * taken off (`all-over.ts`).
 *
 * The larger of the hands (under a two-sided limit: the farther from 0), among hands with enough strokes. Wrong hands
 * are left out. Under 4 strokes that carry the term (`second` 8): too few. Where the phrase cannot tell the term from the others: not
 * measured ("play one bar without accents first").
 * @returns undefined where no such stroke is due
 * @example in `rlrR lrlL` the third stroke 5 dB above the other taps: leakBefore R 5
 */
export function termFigure(
  evidence: Evidence,
  scope: Scope,
  term: CarriedTerm,
  limit: Limit,
): Figure | undefined {
  const due = dueHands(evidence, scope, term);
  if (due.length === 0) return undefined;
  const counted = due.map((hand) => ({ hand, n: countCarriers(evidence, scope, hand, term) }));
  const enough = withEnough(evidence, term, counted);
  if (enough.length === 0) {
    return unjudged(
      'too few strokes',
      counted.map(({ n }) => n),
    );
  }
  const estimable = enough.flatMap(({ hand, n }) => {
    const estimate = estimateOf(evidence, scope, hand, term);
    return estimate === undefined ? [] : [{ hand, n, estimate }];
  });
  if (estimable.length === 0) {
    return unjudged(
      'not measured',
      enough.map(({ n }) => n),
    );
  }
  const size = ({ value }: Estimate): number => (limit.twoSided ? Math.abs(value) : value);
  const worse = estimable.reduce((worst, next) =>
    size(next.estimate) > size(worst.estimate) ? next : worst,
  );
  const figure =
    term === 'second' && givesWay(evidence, scope, worse)
      ? plain(worse.estimate, [worse.n])
      : judged(worse.estimate, [worse.n], limit, evidence.graded.settings);
  return { ...figure, hand: worse.hand };
}

/** True where the scope has strokes enough that carry the term, and the phrase can't tell it from the others. */
export function isInestimable(evidence: Evidence, scope: Scope, term: CarriedTerm): boolean {
  const counted = dueHands(evidence, scope, term).map((hand) => ({
    hand,
    n: countCarriers(evidence, scope, hand, term),
  }));
  const enough = withEnough(evidence, term, counted);
  return (
    enough.length > 0 && enough.every(({ hand }) => estimateOf(evidence, scope, hand, term) === undefined)
  );
}

/** True where a stroke that carries the term is due. */
export function isTermDue(evidence: Evidence, scope: Scope, term: CarriedTerm): boolean {
  return dueHands(evidence, scope, term).length > 0;
}

interface Counted {
  readonly hand: Hand;
  readonly n: number;
}

function withEnough(
  { models, graded: { settings } }: Evidence,
  term: CarriedTerm,
  counted: readonly Counted[],
): readonly Counted[] {
  const fewest = settings[term === 'second' ? 'few.doubles' : 'few.group'];
  return counted.filter(({ hand, n }) => n >= fewest && models[hand].fit !== undefined);
}

/** Hands that have a stroke with the term due. */
function dueHands(evidence: Evidence, scope: Scope, term: CarriedTerm): readonly Hand[] {
  return (scope.hand === undefined ? hands : [scope.hand]).filter(
    (hand) => dueOfFact(evidence, { ...scope, hand }, fact[term]) > 0,
  );
}

/** A hand's strokes that carry the term, and its other soft strokes. */
export function termGroups(
  evidence: Evidence,
  term: CarriedTerm,
  carrying: GroupName,
  others: StrokeGroup = otherSoft(evidence),
): readonly StrokeGroup[] {
  const has = (i: number): boolean => isByItsHand(evidence, i) && (evidence.facts[i] & fact[term]) !== 0;
  return [{ name: carrying, has }, others];
}

function otherSoft(evidence: Evidence): StrokeGroup {
  return { name: 'other soft', has: (i) => isByItsHand(evidence, i) && !isAccent(evidence, i) };
}

/** Level less the model without the term, of the hand's strokes that carry the term. */
export function termBadness(evidence: Evidence, { hand }: Figure, term: CarriedTerm, side: 1 | -1): Badness {
  const { residualDb } = evidence.models;
  return (i) =>
    hand !== undefined && evidence.who[i] === who[hand] && (evidence.facts[i] & fact[term]) !== 0
      ? side * residualDb[i]
      : undefined;
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
