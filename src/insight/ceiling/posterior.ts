import { exp, ln, square } from '../../exact';
import { binnedQuantiles, Bins, binnedShareOver } from './bins';
import { dayLines, type DayLine, type DayTried, type Kind } from './day-line';
import { prior } from './prior';
import { byDay, likeTempi, type TriedBars } from '../../grading/tried-bars';

/** Median and 90 % interval. */
export interface Spread {
  readonly value: number;
  readonly interval: readonly [number, number];
}

/** Median and 90 % interval of a growth, and how likely it is that it goes up. */
interface Growth extends Spread {
  readonly shareUp: number;
}

/** What the bars of one variation say of its ceiling over time. */
export interface Posterior {
  /** Tempo at which 4 bars of 5 that aren't lapses are clean, in bpm, on a day. */
  ceilingOn(day: number): Spread;
  /** By how much the logarithm of that tempo grows a week; undefined where days are too few to ask. */
  readonly perWeek: Growth | undefined;
  /** Days of the first bar and the last. */
  readonly days: readonly [number, number];
}

/** Fewer days, or days less far apart, tell no growth: it is nought then. Source: grading.md section 7. */
const FEWEST_DAYS = 3;
const FEWEST_WEEKS = 2;
const WEEK_DAYS = 7;
/** "Clean" is 4 bars of 5: at the ceiling eˣ = ¼. */
const LN_ODDS = ln(0.25);

/** Points along a, growth and steepness, coarse ones to find where the weight lies. */
const SEARCHES = [
  { points: [25, 9, 5], keep: 40 },
  { points: [17, 9, 5], keep: 22 },
  { points: [17, 9, 5], keep: 11 },
] as const;
const POINTS = [35, 13, 7] as const;
/** A lapse rate and a day effect, with how likely they are. */
const KINDS: readonly Kind[] = prior.lapses.flatMap(({ weight }, lapse) =>
  prior.days.map((day) => ({ lapse, sd: day.sd, weight: weight * day.weight })),
);
/** What the weight is looked for with: the wider day, and lapses as they may well be. */
const SEARCH: readonly Kind[] = [{ lapse: 1, sd: prior.days[prior.days.length - 1].sd, weight: 1 }];

/**
 * Posterior of p(T, t) = (1 - λ)/(1 + exp(b·ln(T/T50(t)))), ln T50(t) = a + s·t + the day's own, on a grid over a, s, ln b,
 * λ and the sd of days, with the priors of `prior`; each day's own ceiling is integrated over. Time is counted from the middle of the bars, where a and s
 * lean on each other least; the flat prior of a is the same there.
 * @param tried of one variation, one phrase, one rig and one player; at least one bar
 */
export function posteriorOf(tried: readonly TriedBars[]): Posterior {
  const days = daysOf(tried);
  const box = days.grows ? firstBox() : { ...firstBox(), s: [0, 0] as Range };
  const weights = kindsSummed(settled(days, box));
  const { first, last, middle } = days;
  return {
    days: [first, last],
    ceilingOn: (day) => ceilingSpread(weights, (day - middle) / WEEK_DAYS),
    perWeek: days.grows ? growthSpread(weights) : undefined,
  };
}

interface Days {
  readonly days: readonly DayTried[];
  /** Neighbouring days as one, where there are many: enough to find where the weight lies. */
  readonly blocks: readonly DayTried[];
  readonly first: number;
  readonly last: number;
  /** The day from which weeks are counted. */
  readonly middle: number;
  readonly grows: boolean;
}

const MOST_BLOCKS = 12;

function daysOf(tried: readonly TriedBars[]): Days {
  const byDate = new Map<number, TriedBars[]>();
  for (const one of byDay(tried)) {
    const own = byDate.get(one.day);
    if (own === undefined) byDate.set(one.day, [one]);
    else own.push(one);
  }
  const dates = [...byDate.keys()];
  const [first, last] = [dates[0], dates[dates.length - 1]];
  const middle = mean(dates);
  const inBlocks = (size: number): readonly DayTried[] =>
    Array.from({ length: Math.ceil(dates.length / size) }, (_, block) => {
      const own = dates.slice(block * size, (block + 1) * size);
      const rows = likeTempi(own.flatMap((day) => byDate.get(day) ?? []));
      return {
        weeks: (mean(own) - middle) / WEEK_DAYS,
        rows: rows.map(({ bpm, bars, clean }) => ({ lnBpm: ln(bpm), clean, broken: bars - clean })),
      };
    });
  return {
    first,
    last,
    middle,
    grows: dates.length >= FEWEST_DAYS && last - first >= FEWEST_WEEKS * WEEK_DAYS,
    days: inBlocks(1),
    blocks: inBlocks(Math.ceil(dates.length / MOST_BLOCKS)),
  };
}

const mean = (days: readonly number[]): number => days.reduce((sum, day) => sum + day, 0) / days.length;

type Range = readonly [number, number];
interface Box {
  readonly a: Range;
  readonly s: Range;
  /** Sd of ln b from its mean. */
  readonly z: Range;
}

const firstBox = (): Box => ({
  a: prior.lnT50,
  s: [-prior.reachSd * prior.perWeek.sd, prior.reachSd * prior.perWeek.sd],
  z: [-prior.reachSd, prior.reachSd],
});

/** The grid's points with their weights, the heaviest about 1: index ((z · s) · a) · kind. */
interface Grid {
  readonly a: readonly number[];
  readonly s: readonly number[];
  readonly z: readonly number[];
  readonly kinds: number;
  readonly weights: Float64Array;
}

/** Coarse grids find where the weight is; the one that counts is laid there. */
function settled(days: Days, first: Box): Grid {
  let box = first;
  for (const { points, keep } of SEARCHES) {
    box = boxAround(weighed(days.blocks, axesOf(box, points), SEARCH), keep, first);
  }
  return weighed(days.days, axesOf(box, POINTS), KINDS);
}

type Axes = Pick<Grid, 'a' | 's' | 'z'>;

function axesOf({ a, s, z }: Box, [ofA, ofS, ofZ]: readonly [number, number, number]): Axes {
  return { a: along(a, ofA), s: along(s, ofS), z: along(z, ofZ) };
}

function along([from, to]: Range, points: number): readonly number[] {
  if (from === to) return [from];
  return Array.from({ length: points }, (_, at) => from + ((to - from) * at) / (points - 1));
}

/** Where points lie within `keep` of the heaviest, one step more on each side. */
function boxAround({ a, s, z, weights }: Grid, keep: number, first: Box): Box {
  const ends = { a: [Infinity, -1], s: [Infinity, -1], z: [Infinity, -1] };
  const widen = (of: number[], at: number): void => {
    if (at < of[0]) of[0] = at;
    if (at > of[1]) of[1] = at;
  };
  const least = exp(-keep);
  weights.forEach((weight, index) => {
    if (weight < least) return;
    const row = Math.floor(index / a.length);
    widen(ends.a, index % a.length);
    widen(ends.s, row % s.length);
    widen(ends.z, Math.floor(row / s.length));
  });
  const box = (of: readonly number[], nodes: readonly number[], whole: Range): Range => {
    if (nodes.length === 1) return whole;
    const step = nodes[1] - nodes[0];
    return [Math.max(whole[0], nodes[of[0]] - step), Math.min(whole[1], nodes[of[1]] + step)];
  };
  return { a: box(ends.a, a, first.a), s: box(ends.s, s, first.s), z: box(ends.z, z, first.z) };
}

/** Each day's likelihoods multiplied into the prior's weights, a steepness at a time. */
function weighed(days: readonly DayTried[], axes: Axes, kinds: readonly Kind[]): Grid {
  const { a, s, z } = axes;
  const weights = new Float64Array(a.length * s.length * z.length * kinds.length);
  const perNode = s.length * a.length * kinds.length;
  const lineOf = dayLines(kinds);
  const lnScales = z.map((deviate, atZ) => {
    const own = weights.subarray(atZ * perNode, (atZ + 1) * perNode);
    for (let index = 0; index < perNode; index += 1) {
      const growth = s[Math.floor(index / (a.length * kinds.length))];
      own[index] = kinds[index % kinds.length].weight * exp(-square(growth / prior.perWeek.sd) / 2);
    }
    let lnScale = -square(deviate) / 2;
    days.forEach((day, index) => {
      const shifts = s.map((growth) => growth * day.weeks);
      const [one, other] = [shifts[0], shifts[shifts.length - 1]];
      const [lowest, highest] = [a[0] + Math.min(one, other), a[a.length - 1] + Math.max(one, other)];
      const line = lineOf(day, steepnessAt(deviate), lowest, highest);
      multiply(own, a, shifts, line, kinds.length);
      lnScale += line.lnScale;
      if (index % RESCALE_DAYS === RESCALE_DAYS - 1 || index === days.length - 1) lnScale += rescaled(own);
    });
    return lnScale;
  });
  const most = lnScales.reduce((largest, one) => Math.max(largest, one), -Infinity);
  lnScales.forEach((lnScale, atZ) => {
    const scale = exp(lnScale - most);
    for (let index = atZ * perNode; index < (atZ + 1) * perNode; index += 1) weights[index] *= scale;
  });
  return { a, s, z, kinds: kinds.length, weights };
}

/** So many days' likelihoods, each 1e-30 at least, don't vanish in a product. */
const RESCALE_DAYS = 8;

/** The largest becomes 1; returns the logarithm of what was taken off. */
function rescaled(weights: Float64Array): number {
  let most = 0;
  for (const one of weights) if (one > most) most = one;
  for (let index = 0; index < weights.length; index += 1) weights[index] /= most;
  return ln(most);
}

/** A day's likelihoods, for all growths, a and kinds at one steepness. */
function multiply(
  weights: Float64Array,
  a: readonly number[],
  shifts: readonly number[],
  { from, step, values }: DayLine,
  kinds: number,
): void {
  const perPoint = (a[1] - a[0]) / step;
  let index = 0;
  for (const shift of shifts) {
    const first = (a[0] + shift - from) / step;
    for (let at = 0; at < a.length; at += 1) {
      const place = first + at * perPoint;
      const node = Math.floor(place);
      const part = place - node;
      let value = node * kinds;
      for (let kind = 0; kind < kinds; kind += 1, index += 1, value += 1) {
        const here = values[value];
        weights[index] *= here + part * (values[value + kinds] - here);
      }
    }
  }
}

/** The weights of a grid whose kinds are summed over: index (z · s) · a. */
interface Summed extends Pick<Grid, 'a' | 's' | 'z'> {
  readonly weights: Float64Array;
}

function kindsSummed({ a, s, z, kinds, weights }: Grid): Summed {
  const sums = new Float64Array(a.length * s.length * z.length);
  for (let cell = 0; cell < sums.length; cell += 1) {
    for (let kind = 0; kind < kinds; kind += 1) sums[cell] += weights[cell * kinds + kind];
  }
  return { a, s, z, weights: sums };
}

/** Spread of exp(a + s·t + ln ¼ / b), in bpm. */
function ceilingSpread({ a, s, z, weights }: Summed, weeks: number): Spread {
  const step = a[1] - a[0];
  const shifts = z.flatMap((deviate) => s.map((growth) => growth * weeks + LN_ODDS / steepnessAt(deviate)));
  const lowest = shifts.reduce((least, one) => Math.min(least, one), Infinity);
  const highest = shifts.reduce((largest, one) => Math.max(largest, one), -Infinity);
  const bins = new Bins(a[0] + lowest - step, a[a.length - 1] + highest + step, step);
  shifts.forEach((shift, row) => {
    for (let at = 0; at < a.length; at += 1) {
      const weight = weights[row * a.length + at];
      if (weight > 0) bins.add(a[at] + shift, weight);
    }
  });
  const [low, middle, high] = binnedQuantiles(bins, [0.05, 0.5, 0.95]);
  return { value: exp(middle), interval: [exp(low), exp(high)] };
}

function growthSpread({ a, s, z, weights }: Summed): Growth {
  const step = s[1] - s[0];
  const bins = new Bins(s[0] - step, s[s.length - 1] + step, step);
  for (let row = 0; row < s.length * z.length; row += 1) {
    for (let at = 0; at < a.length; at += 1) bins.add(s[row % s.length], weights[row * a.length + at]);
  }
  const [low, value, high] = binnedQuantiles(bins, [0.05, 0.5, 0.95]);
  return { value, interval: [low, high], shareUp: binnedShareOver(bins, 0) };
}

function steepnessAt(deviate: number): number {
  return exp(prior.lnSteepness.mean + prior.lnSteepness.sd * deviate);
}
