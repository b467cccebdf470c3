import { InputError } from '../../errors';
import { gridOf } from '../../exercises/grid';
import type { Grid, Phrase } from '../../exercises/types';
import type { Hand } from '../../stroke';
import { difference, spansNought } from '../../grading/numbers/difference';
import { welchDifference, type Estimate } from '../../grading/numbers/intervals';
import { isAsDue } from '../../grading/facts/facts';
import { judgedMeasureOf, measureOrder } from '../../grading/measures';
import { partOf } from '../../grading/figures/named-figures';
import type { Figure, JudgedKey, Measures, Report } from '../../grading/types';
import { normalQuantile, NORMAL_95 } from '../../grading/numbers/statistics';
import { measureUnit } from '../../grading/words';

/** A take to be set beside another: its report and the phrase it was played from. */
export interface Compared {
  readonly report: Report;
  readonly phrase: Phrase;
}

/** One measure of both takes. Differences are second less first, with 90 % intervals. */
export interface MeasureDifference {
  /** Null: of the whole take. */
  readonly variation: string | null;
  readonly measure: JudgedKey;
  /** Of a seam: in time or in level. */
  readonly part?: 'ms' | 'dB';
  readonly unit: string;
  readonly first: Figure;
  readonly second: Figure;
  readonly difference: Estimate;
  /** True where the interval spans nought: chance alone may make it. */
  readonly insideNoise: boolean;
  /** True where it is more than chance may make even though all measures are looked at (Bonferroni). */
  readonly standsOut: boolean;
  /** Second supported margin less first: positive is better. */
  readonly better: number;
}

/** One place of one variation in both takes. */
export interface PlaceDifference {
  readonly variation: string;
  /** Partial of the pattern, and its first slot in the bar, from 0. */
  readonly place: number;
  readonly slot: number;
  readonly hand: Hand;
  /** Strokes in the first and the second take. */
  readonly n: readonly [number, number];
  /** dB, second less first. */
  readonly levelDb: Estimate | null;
  /** ms, second less first, each take's own offset off. */
  readonly deviationMs: Estimate | null;
  /** True where neither level nor time is more than chance may make, all places being looked at (Bonferroni). */
  readonly insideNoise: boolean;
}

export interface Comparison {
  readonly measures: readonly MeasureDifference[];
  readonly places: readonly PlaceDifference[];
}

const SURE = 0.9;
/** For a mean and its spread. */
const FEWEST = 4;

/**
 * Two takes of the same phrase, measure by measure and place by place: before and after, or student and model take.
 * Measures without a value in either are left out; matched strokes only, wrong hands left out.
 * @throws InputError where the phrases' bars are not the same
 */
export function compareTakes(first: Compared, second: Compared): Comparison {
  const [barsOfFirst, barsOfSecond] = [first, second].map(({ phrase }) =>
    phrase.bars.map(({ variation, sticking }) => `${variation}: ${sticking.replaceAll(/\s/g, '')}`),
  );
  const odd = barsOfFirst.findIndex((bar, index) => bar !== barsOfSecond[index]);
  if (odd >= 0 || barsOfFirst.length !== barsOfSecond.length) {
    const at = odd >= 0 ? odd : barsOfFirst.length;
    throw new InputError(`bars[${at}]`, 'must be the same in both takes', barsOfSecond[at] ?? 'no bar');
  }
  if (!first.report.fits || !second.report.fits) return { measures: [], places: [] };
  const scopes = [null, ...first.report.variations.map(({ name }) => name)];
  const found = scopes.flatMap((variation) => measureDifferences(variation, first.report, second.report));
  // what an interval reaches when all of them together are to be wrong as seldom as one of them
  const stretch = normalQuantile(1 - (1 - SURE) / 2 / Math.max(1, found.length)) / NORMAL_95;
  return {
    measures: found.map((one) => ({ ...one, standsOut: liesBeyond(one.difference, stretch) })),
    places: placeDifferences(first, second),
  };
}

function liesBeyond({ value, interval: [low, high] }: Estimate, stretch: number): boolean {
  const reach = value > 0 ? value - low : high - value;
  return Math.abs(value) > stretch * reach;
}

type Difference = Omit<MeasureDifference, 'standsOut'>;

function measureDifferences(variation: string | null, first: Report, second: Report): Difference[] {
  const [of, and] = [first, second].map((report) => measuresIn(report, variation));
  return measureOrder.flatMap((measure) =>
    judgedMeasureOf(measure).figures.flatMap(({ part, limit }) => {
      const [a, b] = [partOf(of, measure, part), partOf(and, measure, part)];
      // of a leak the larger hand may be another now, and is still the measure; a fade would change its side
      const sameHand = !limit(first.settings, { gapMs: 0 }).twoSided || a?.hand === b?.hand;
      if (!sameHand || a?.surface !== b?.surface) return [];
      const named = { variation, measure, ...(part === null ? {} : { part }) };
      return differenceOf({ ...named, unit: part ?? measureUnit(measure) }, a, b);
    }),
  );
}

function differenceOf(
  named: Pick<MeasureDifference, 'variation' | 'measure' | 'part' | 'unit'>,
  first: Figure | undefined,
  second: Figure | undefined,
): Difference[] {
  const [a, b] = [estimateOf(first), estimateOf(second)];
  if (first === undefined || second === undefined || a === undefined || b === undefined) return [];
  const apart = difference(b, a);
  const better = (second.supported ?? 0) - (first.supported ?? 0);
  return [{ ...named, first, second, difference: apart, insideNoise: spansNought(apart), better }];
}

function estimateOf(figure: Figure | undefined): Estimate | undefined {
  if (figure === undefined || figure.value === null || figure.interval === null) return undefined;
  return { value: figure.value, interval: figure.interval };
}

function measuresIn(report: Report, variation: string | null): Measures {
  if (variation === null) return report.measures;
  return report.variations.find(({ name }) => name === variation)?.measures ?? {};
}

interface PlaceStrokes {
  readonly variation: string;
  readonly place: number;
  readonly slot: number;
  readonly hand: Hand;
  readonly levelsDb: number[];
  readonly deviationsMs: number[];
}

function placeDifferences(first: Compared, second: Compared): PlaceDifference[] {
  const [of, and] = [strokesByPlace(first), strokesByPlace(second)];
  const shared = [...of].flatMap(([key, a]) => {
    const b = and.get(key);
    return b === undefined ? [] : [{ a, b }];
  });
  const timed = first.report.clumped !== true && second.report.clumped !== true;
  const looks = shared.length * (timed ? 2 : 1);
  const strict = 1 - (1 - SURE) / 2 / Math.max(1, looks);
  return shared.map(({ a, b }): PlaceDifference => {
    const enough = a.levelsDb.length >= FEWEST && b.levelsDb.length >= FEWEST;
    const levelDb = (enough && welchDifference(b.levelsDb, a.levelsDb)) || null;
    const deviationMs = (enough && timed && welchDifference(b.deviationsMs, a.deviationsMs)) || null;
    const isOutsideNoise = [
      levelDb && welchDifference(b.levelsDb, a.levelsDb, strict),
      deviationMs && welchDifference(b.deviationsMs, a.deviationsMs, strict),
    ].some((estimate) => estimate && !spansNought(estimate));
    const { variation, place, slot, hand } = a;
    const n = [a.levelsDb.length, b.levelsDb.length] as const;
    return { variation, place, slot, hand, n, levelDb, deviationMs, insideNoise: !isOutsideNoise };
  });
}

function strokesByPlace({ report, phrase }: Compared): Map<string, PlaceStrokes> {
  const grid: Grid = gridOf(phrase, { bpm: 60 }, 0, report.bars.length);
  const found = new Map<string, PlaceStrokes>();
  for (const slot of grid.slots) {
    const { variation, place, hand } = slot;
    const key = `${variation} ${place} ${hand}`;
    const there = found.get(key) ?? {
      variation,
      place,
      slot: slot.slot,
      hand,
      levelsDb: [],
      deviationsMs: [],
    };
    found.set(key, there);
    const judged = report.slots[slot.index];
    const { judgedLevel, deviationMs } = judged;
    if (!isAsDue(judged) || judgedLevel === null || deviationMs === null) continue;
    there.levelsDb.push(judgedLevel);
    there.deviationsMs.push(deviationMs - report.offsetMs);
  }
  return found;
}
