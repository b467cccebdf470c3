import type { Evidence } from './evidence/evidence';
import { farthestSlot } from './facts/farthest-slot';
import type { Hand } from '../stroke';
import type { Figure, Part } from './figures/figure';
import { judgedMeasureOf, measureOrder } from './measures';
import { otherWords, type Unworded } from './sayings';
import { blameOf } from './scope';
import type { Weakest } from './types';
import {
  byStanding,
  isShadowOf,
  namingKeys,
  outIn,
  worstOfTake,
  type Standing,
  type VariationStanding,
} from './weakest';

/**
 * What is out beside what the report's sentence leads with, the worst first: each measure once a hand, where it stands
 * worst, with where it lives. What is only another's shadow is left out, as the sentence leaves it out.
 */
export function othersOf(evidence: Evidence, body: Unworded, weakest: Weakest | null): readonly Weakest[] {
  if (!body.fits || weakest === null) return [];
  const told = toldIn(body, weakest);
  const ofBars = outOfVariations(body);
  const ofTake = outOfTake(body, ofBars);
  const isTold = (one: Standing): boolean => told !== null && keyOf(one) === told;
  return [
    ...ofBars.filter((one) => !isTold(one)).map((one) => ofVariation(evidence, body, one, weakest)),
    ...ofTake.filter((one) => !isTold(one)).map((one) => ofWhole(body, one, weakest)),
  ];
}

const keyOf = ({ key, figure: { hand } }: Standing): string => `${key} ${hand ?? ''}`;

/** What the sentence names; null for a slip. */
function toldIn(body: Unworded, { measure, hand, variation }: Weakest): string | null {
  if (body.slips.length > 0) return null;
  const own = body.variations.find(({ name }) => name === variation);
  if ((own?.supported ?? 0) < 0) return `${measure} ${hand ?? ''}`;
  const overall = worstOfTake(body, true);
  return overall === undefined ? null : keyOf(overall);
}

/** Each measure of each hand where it stands worst. */
function outOfVariations({ variations }: Unworded): readonly VariationStanding[] {
  const keys = namingKeys(variations.map(({ measures }) => measures));
  const all = variations
    .flatMap((variation) => {
      const out = outIn(variation.measures, keys);
      return out.filter((one) => !isShadowAmong(one, out)).map((one) => ({ ...one, variation }));
    })
    .sort(byStanding);
  return all.filter((one, index) => all.findIndex((other) => keyOf(other) === keyOf(one)) === index);
}

/** True where a worse fault of the same hand explains it. */
const isShadowAmong = (one: Standing, out: readonly Standing[]): boolean =>
  out.some(
    (other) =>
      isShadowOf(one.key, other.key) && other.figure.hand === one.figure.hand && byStanding(other, one) < 0,
  );

/** What only the whole take shows. */
function outOfTake(body: Unworded, ofBars: readonly Standing[]): readonly Standing[] {
  const isOfBars = body.course.some(({ kind }) => kind === 'other bar');
  const isSwung = body.course.some(({ kind }) => kind === 'swing');
  const keys = measureOrder.filter(
    (key) =>
      judgedMeasureOf(key).verdict !== 'names when nothing else is out' &&
      !(key === 'complete' && isOfBars) &&
      !(key === 'feel' && isSwung) &&
      !ofBars.some((one) => one.key === key),
  );
  const out = outIn(body.measures, keys);
  return out.filter((one) => !isShadowAmong(one, [...out, ...ofBars]));
}

function ofVariation(
  evidence: Evidence,
  body: Unworded,
  standing: VariationStanding,
  weakest: Weakest,
): Weakest {
  const { variation, key, part, figure } = standing;
  // After a slip the weakest is told as it would have been without.
  if (key === weakest.measure && figure.hand === weakest.hand) return weakest;
  const blame = blameOf(evidence, standing);
  return {
    ...blame,
    variation: variation.name,
    measure: key,
    ...partIn(part),
    ...handIn(figure),
    slot: farthestSlot(evidence, evidence.names.indexOf(variation.name), key, part, figure),
    value: figure.value ?? 0,
    sentence: otherWords(body, { ...blame, ...handIn(figure) }, key, variation),
  };
}

function ofWhole(body: Unworded, { key, part, figure }: Standing, { variation }: Weakest): Weakest {
  const { variations } = body;
  return {
    scope: 'take',
    variations: variations.map(({ name }) => name),
    variation,
    measure: key,
    ...partIn(part),
    ...handIn(figure),
    slot: null,
    value: figure.value ?? 0,
    sentence: otherWords(body, null, key),
  };
}

const handIn = ({ hand }: Figure): { hand?: Hand } => (hand === undefined ? {} : { hand });

/** Of a measure with two figures the one that is meant. */
export const partIn = (part: Part | null): { part?: Part } => (part === null ? {} : { part });
