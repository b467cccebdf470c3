import { square } from '../exact';
import { kindCode, who } from './codes';
import type { Evidence } from './evidence';
import { softKinds } from './measures/levels';
import { termOf } from './measures/soft-strokes';
import { doublePercent } from './movement';
import { fact } from './phrase-facts';
import { median } from './statistics';
import type { Figure, JudgedKey } from './types';

/** How far a slot lies on the bad side, larger is worse; undefined where it isn't of the measure's first group. */
type Badness = (i: number) => number | undefined;

/**
 * The slot to name: the first slot in the bar of the place whose strokes of the measure's first group lie farthest on
 * the bad side by their mean, ties to the earliest. First groups: accents of `contrast` and `clarity`, the right hand
 * of a balance and of `lag`, the second notes of doubles, the strokes that carry a term.
 * @returns null where no place stands out: nothing wrong at any place (only extras or slips), or no stroke
 */
export function farthestSlot(
  evidence: Evidence,
  variation: number,
  key: JudgedKey,
  figure: Figure,
): number | null {
  const { slots } = evidence.graded.grid;
  const badness = badnessOf(evidence, variation, key, figure);
  const byPlace = new Map<number, { first: number; sum: number; n: number }>();
  for (let i = 0; i < slots.length; i++) {
    if (evidence.variation[i] !== variation) continue;
    if (figure.surface !== undefined && evidence.surfaces[evidence.surface[i]] !== figure.surface) continue;
    const bad = badness(i);
    if (bad === undefined) continue;
    const { place, slot } = slots[i];
    const seen = byPlace.get(place);
    if (seen === undefined) byPlace.set(place, { first: slot, sum: bad, n: 1 });
    else {
      seen.first = Math.min(seen.first, slot);
      seen.sum += bad;
      seen.n++;
    }
  }
  const places = [...byPlace.values()].sort((a, b) => a.first - b.first);
  if (places.length === 0) return null;
  const worst = places.reduce((most, next) => (next.sum / next.n > most.sum / most.n ? next : most));
  return key === 'complete' && worst.sum === 0 ? null : worst.first;
}

function badnessOf(evidence: Evidence, variation: number, key: JudgedKey, figure: Figure): Badness {
  const { kind, levelDb, deviationMs, facts, who: by } = evidence;
  const side = (figure.value ?? 0) < 0 ? -1 : 1;
  const ifMatched =
    (bad: (i: number) => number, belongs: (i: number) => boolean = () => true): Badness =>
    (i) =>
      by[i] !== who.none && belongs(i) ? bad(i) : undefined;
  const isAccent = (i: number): boolean => kind[i] === kindCode.accent;
  const softCodes = softKinds(evidence).map((name) => kindCode[name]);
  switch (key) {
    case 'complete':
      return (i) => {
        const outcome = evidence.graded.alignment.outcomes[i];
        if (outcome.status === 'missed') return 1;
        return outcome.status === 'matched' ? Number(outcome.wrongHand) : undefined;
      };
    case 'scatter':
      return ifMatched((i) => square(deviationMs[i] - evidence.timing.placeMeanMs(i)));
    case 'leakBefore':
    case 'leakAfter':
    case 'spill':
    case 'fade':
      return carried(evidence, key, figure, key === 'fade' ? side : 1);
    case 'softRange':
      return ifMatched(
        (i) => levelDb[i],
        (i) => !isAccent(i) && (figure.hand === undefined || by[i] === who[figure.hand]),
      );
    case 'flamEvenness':
    case 'flamGap':
    case 'graceSoftness':
      return ofGraces(evidence, key, figure);
    case 'softness':
      return ifMatched(
        (i) => levelDb[i],
        (i) => softCodes.includes(kind[i]),
      );
    case 'ghostContrast':
      return ifMatched(
        (i) => -levelDb[i],
        (i) => kind[i] === kindCode.tap,
      );
    case 'contrast':
    case 'clarity':
      return ifMatched((i) => -levelDb[i], isAccent);
    case 'doubleGap':
      return (i) =>
        (facts[i] & fact.double) !== 0 && by[i] < who.wrong && by[i - 1] < who.wrong
          ? side * doublePercent(evidence, i)
          : undefined;
    case 'balanceSoft':
    case 'balanceAccent':
      return ifMatched(
        (i) => side * levelDb[i],
        (i) => by[i] === who.R && isAccent(i) === (key === 'balanceAccent'),
      );
    case 'lag':
      return ifMatched(
        (i) => side * deviationMs[i],
        (i) => by[i] === who.R,
      );
    case 'seam':
      return (i) => (evidence.graded.grid.slots[i].slot === 0 ? 0 : undefined);
    case 'softSpread':
    case 'accentSpread': {
      const kinds = key === 'softSpread' ? softKinds(evidence) : (['accent'] as const);
      const middle = median(evidence.levels.select({ variation }, kinds)) ?? 0;
      const codes = kinds.map((name) => kindCode[name]);
      return ifMatched(
        (i) => Math.abs(levelDb[i] - middle),
        (i) => codes.includes(kind[i]),
      );
    }
  }
}

/** Level less the model without the term, of the hand's strokes that carry the term. */
function carried(
  evidence: Evidence,
  key: 'leakBefore' | 'leakAfter' | 'spill' | 'fade',
  { hand }: Figure,
  side: number,
): Badness {
  const { residualDb } = evidence.models;
  return (i) =>
    hand !== undefined && evidence.who[i] === who[hand] && (evidence.facts[i] & fact[termOf[key]]) !== 0
      ? side * residualDb[i]
      : undefined;
}

/** Of a slot with graces: how uneven, how far from the ideal on the figure's side, or how loud they are. */
function ofGraces(
  evidence: Evidence,
  key: 'flamEvenness' | 'flamGap' | 'graceSoftness',
  { value, hand }: Figure,
): Badness {
  const { graded, who: by } = evidence;
  const found = new Map((graded.alignment.graces ?? []).map((pair) => [pair.slot, pair.strokes]));
  const gapMs = (i: number): number | undefined => {
    const outcome = graded.alignment.outcomes[i];
    const last = found.get(i)?.at(-1);
    if (outcome.status !== 'matched' || last === undefined) return undefined;
    return graded.strokes[outcome.stroke].atMs - graded.strokes[last].atMs;
  };
  const gaps = [...found.keys()].flatMap((i) => gapMs(i) ?? []);
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  return (i) => {
    const gap = gapMs(i);
    const outcome = graded.alignment.outcomes[i];
    if (gap === undefined || outcome.status !== 'matched') return undefined;
    switch (key) {
      case 'flamEvenness':
        if (hand === undefined) return square(gap - mean);
        return by[i] === who[hand] ? gap : undefined;
      case 'flamGap':
        return (value ?? 0) < graded.settings['flamGap.ideal'] ? -gap : gap;
      case 'graceSoftness': {
        const last = found.get(i)?.at(-1) ?? outcome.stroke;
        return graded.strokes[last].levelDb - graded.strokes[outcome.stroke].levelDb;
      }
    }
  };
}
