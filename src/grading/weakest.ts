import type { Hand } from '../stroke';
import type { Band, Figure, Part } from './figures/figure';
import { judgedMeasureOf, measureOrder, type JudgedKey } from './measures';
import { figuresOf, worstFigureOf } from './figures/named-figures';
import type { Measures, Report, VariationReport } from './types';

const primary = measureOrder.filter((key) => judgedMeasureOf(key).verdict === 'names');
/** Shown under "all measures"; they name a variation only when nothing else is out. */
const secondary = measureOrder.filter(
  (key) => judgedMeasureOf(key).verdict === 'names when nothing else is out',
);
const naming = measureOrder.filter((key) => judgedMeasureOf(key).verdict !== 'never names');

/** A judged figure with its name. */
export interface Standing {
  readonly key: JudgedKey;
  /** Which of a measure's two figures; null of the only one. */
  readonly part: Part | null;
  readonly figure: Figure;
  readonly supported: number;
  readonly margin: number;
}

/** A variation's worst measure. */
export interface VariationStanding extends Standing {
  readonly variation: VariationReport;
}

/**
 * Keys that may name a variation: the main measures; where each of those holds in every variation but `clarity` or a
 * spread doesn't somewhere, those too.
 */
export function namingKeys(variations: readonly Measures[]): readonly JudgedKey[] {
  const isOut = (keys: readonly JudgedKey[]): boolean =>
    variations.some((measures) => standings(measures, keys).some(({ supported }) => supported < 0));
  return !isOut(primary) && isOut(secondary) ? naming : primary;
}

/** The worst judged measure: smallest supported margin, ties by margin, then by teaching order. */
export function worstOf(measures: Measures, keys: readonly JudgedKey[]): Standing | undefined {
  return standings(measures, keys)[0];
}

/**
 * What is worst over the whole take, and wasn't told before: bars that were played as others are no reason once more.
 * @param isSwingTold where a swing has its own sentence
 */
export function worstOfTake(
  { measures, course }: Pick<Report, 'measures' | 'course'>,
  isSwingTold: boolean,
): Standing | undefined {
  const isOfBars = course.some(({ kind }) => kind === 'other bar');
  const isLeft = (key: JudgedKey): boolean =>
    !(key === 'feel' && isSwingTold) && !(key === 'complete' && isOfBars);
  return worstOf(measures, measureOrder.filter(isLeft));
}

/** All that is out, worst first; a balance that a leak makes isn't. */
export function outIn(measures: Measures, keys: readonly JudgedKey[]): readonly Standing[] {
  return standings(measures, keys).filter(({ supported }) => supported < 0);
}

/** True where a figure is judged, and doesn't hold. */
export const isOut = ({ supported }: Figure): boolean => typeof supported === 'number' && supported < 0;

/** True where a measure's figure is only what another's fault makes of it. */
export function isShadowOf(key: JudgedKey, other: JudgedKey): boolean {
  return judgedMeasureOf(other).shadows?.includes(key) ?? false;
}

/** Variations that could be judged, weakest first; ties by margin, teaching order, then phrase order. */
export function weakestFirst(variations: readonly VariationReport[]): VariationStanding[] {
  const keys = namingKeys(variations.map(({ measures }) => measures));
  return variations
    .flatMap((variation) => {
      const worst = worstOf(variation.measures, keys);
      return worst ? [{ ...worst, variation }] : [];
    })
    .sort(byStanding);
}

/** Over the whole take, of the hand that a figure is of: a hand's own where it has its own row. */
export function measuresOver(
  { measures, perHand }: Pick<Report, 'measures' | 'perHand'>,
  key: JudgedKey,
  hand: Hand | undefined,
): Measures {
  const own = hand === undefined ? undefined : perHand[hand].measures;
  return own?.[key] === undefined ? measures : own;
}

/** The band of what nothing could be judged of. */
export function bandWithout(measures: Measures): Band {
  const tooFew = measureOrder.some((key) =>
    figuresOf(measures, key).some(({ figure }) => figure.band === 'too few strokes'),
  );
  return tooFew ? 'too few strokes' : 'not measured';
}

/** The figure behind a key; of two the worse. */
export function figureOf(measures: Measures, key: JudgedKey): Figure | undefined {
  return worstFigureOf(measures, key)?.figure;
}

function standings(measures: Measures, keys: readonly JudgedKey[]): Standing[] {
  const all = allStandings(measures, keys);
  const out = all.filter(({ supported }) => supported < 0);
  return all.filter((one) => !out.some((other) => isLoudHand(one, other)));
}

/**
 * A hand whose taps leak is louder than the other by that alone: a balance of the soft strokes isn't named beside a leak or
 * a spill of the louder hand.
 */
function isLoudHand({ key, figure }: Standing, leak: Standing): boolean {
  if (key !== 'balanceSoft' || !isShadowOf(key, leak.key)) return false;
  return leak.figure.hand === ((figure.value ?? 0) < 0 ? 'L' : 'R');
}

function allStandings(measures: Measures, keys: readonly JudgedKey[]): Standing[] {
  return keys
    .flatMap((key) => {
      const worst = worstFigureOf(measures, key);
      if (worst === undefined) return [];
      const { part, figure } = worst;
      if (typeof figure.supported !== 'number' || typeof figure.margin !== 'number') return [];
      return [{ key, part, figure, supported: figure.supported, margin: figure.margin }];
    })
    .sort(byStanding);
}

/** Worst first, ties by margin, then by teaching order. A stable sort keeps phrase order where all else ties. */
export function byStanding(a: Standing, b: Standing): number {
  return (
    a.supported - b.supported ||
    a.margin - b.margin ||
    measureOrder.indexOf(a.key) - measureOrder.indexOf(b.key)
  );
}
