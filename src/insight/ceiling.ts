import { exp, ln, power, square } from '../exact';
import { gridOf } from '../exercises/grid';
import { tempoPlayed } from '../exercises/tempo';
import type { Phrase, Tempo } from '../exercises/types';
import type { Bpm } from '../units';
import type { Estimate } from '../grading/intervals';
import { heldLikelihood, tempoWhere, type TempoCount } from '../grading/numbers/held-curve';
import type { Report } from '../grading/types';

/** Bars of one variation played at one tempo in one take, as History keeps them, and how long ago. */
export interface HeldBars {
  readonly variation: string;
  readonly bpm: Bpm;
  readonly bars: number;
  readonly held: number;
  /** Days before the newest take. */
  readonly ageDays: number;
}

/** The tempo at which bars hold 4 times of 5. */
export type Ceiling =
  | {
      readonly kind: 'at';
      readonly bars: number;
      /** bpm: posterior median with its 5 % and 95 % points. */
      readonly clean: Estimate;
      /** bpm: where bars hold as often as not. */
      readonly breaks: Bpm;
    }
  /** Over the fastest tempo, or under the slowest, with 4 bars or more: no number is given. */
  | { readonly kind: 'above' | 'below'; readonly bars: number; readonly bpm: Bpm }
  | { readonly kind: 'too few bars'; readonly bars: number };

/** Source of all: grading.md section 7. */
const FEWEST_BARS = 6;
const FEWEST_AT_AN_END = 4;
const HALF_LIFE_DAYS = 21;
/** Beside the youngest bar one as much older weighs under a millionth: it is left out. */
const MOST_HALF_LIVES = 20;
const CLEAN = 0.8;
const BREAKS = 0.5;
const SLOWEST: Bpm = 20;
const FASTEST: Bpm = 400;
const TEMPOS = 161;
const SLOPES = 25;
const SLOPE_MEDIAN = 12;
const SLOPE_SD = 0.6;
/** How far the grid of slopes reaches, in sd. */
const SLOPE_REACH = 3;

/**
 * Ceiling from bars held and not held at their tempos: p(T) = 0.98/(1 + exp(b·ln(T/T50))), ln b ~ Normal(ln 12, sd
 * 0.6), flat in ln T50 from 20 to 400 bpm, on a grid of 161 × 25. A bar weighs half after 21 days. From 6 bars on.
 * The bars given are taken together: of one variation for its own ceiling, all of them for the phrase's. Of one rig.
 * @example ceilingOf([{ variation: 'a', bpm: 80, bars: 5, held: 5, ageDays: 0 }]) // => { kind: 'too few bars', bars: 5 }
 */
export function ceilingOf(bars: readonly HeldBars[]): Ceiling {
  const total = bars.reduce((sum, row) => sum + row.bars, 0);
  if (total < FEWEST_BARS) return { kind: 'too few bars', bars: total };
  const weights = posterior(weighted(bars));
  const clean = quantiles(weights, CLEAN);
  const value = clean(0.5);
  const [slowest, fastest] = ends(bars);
  if (fastest !== undefined && value > fastest) return { kind: 'above', bars: total, bpm: fastest };
  if (slowest !== undefined && value < slowest) return { kind: 'below', bars: total, bpm: slowest };
  return {
    kind: 'at',
    bars: total,
    clean: { value, interval: [clean(0.05), clean(0.95)] },
    breaks: quantiles(weights, BREAKS)(0.5),
  };
}

/** Ceiling of each variation, by name in order of first appearance, and of all bars together. */
export function ceilingsOf(bars: readonly HeldBars[]): {
  readonly phrase: Ceiling;
  readonly variations: ReadonlyMap<string, Ceiling>;
} {
  const names = [...new Set(bars.map(({ variation }) => variation))];
  return {
    phrase: ceilingOf(bars),
    variations: new Map(
      names.map((name) => [name, ceilingOf(bars.filter(({ variation }) => variation === name))]),
    ),
  };
}

/**
 * Bars held of a take, a row a variation and tempo; a ramp's and those in free time by their mean tempo in whole bpm.
 * @returns nothing of a take that doesn't fit its grid
 */
export function heldBarsOf(report: Report, phrase: Phrase, tempo: Tempo, ageDays = 0): readonly HeldBars[] {
  if (!report.fits) return [];
  const played = tempoPlayed(tempo, report);
  const grid = gridOf(phrase, played, 0, report.bars.length);
  const rows = new Map<string, HeldBars>();
  for (const { index, variation, role, clean } of report.bars) {
    if (role !== undefined) continue;
    const { startMs, endMs, beats } = grid.bars[index];
    const bpm = 'bpm' in played ? played.bpm : Math.round((beats * 60_000) / (endMs - startMs));
    const key = `${bpm} ${variation}`;
    const row = rows.get(key) ?? { variation, bpm, bars: 0, held: 0, ageDays };
    rows.set(key, { ...row, bars: row.bars + 1, held: row.held + Number(clean) });
  }
  return [...rows.values()];
}

/** Slowest and fastest tempo with 4 bars or more. */
function ends(bars: readonly HeldBars[]): readonly [slowest: Bpm | undefined, fastest: Bpm | undefined] {
  const counts = new Map<Bpm, number>();
  for (const { bpm, bars: n } of bars) counts.set(bpm, (counts.get(bpm) ?? 0) + n);
  const tempos = [...counts]
    .flatMap(([bpm, n]) => (n >= FEWEST_AT_AN_END ? [bpm] : []))
    .sort((a, b) => a - b);
  return [tempos[0], tempos.at(-1)];
}

function weighted(bars: readonly HeldBars[]): TempoCount[] {
  const counts = new Map<Bpm, { bpm: Bpm; held: number; notHeld: number }>();
  const youngest = bars.reduce((least, { ageDays }) => Math.min(least, ageDays), Infinity);
  // Rows of one take stand together, and are of one age.
  let [age, weight] = [0, 1];
  for (const { bpm, bars: n, held, ageDays } of bars) {
    if (ageDays - youngest > MOST_HALF_LIVES * HALF_LIFE_DAYS) continue;
    if (ageDays !== age) [age, weight] = [ageDays, power(2, -ageDays / HALF_LIFE_DAYS)];
    let count = counts.get(bpm);
    if (count === undefined) counts.set(bpm, (count = { bpm, held: 0, notHeld: 0 }));
    count.held += weight * held;
    count.notHeld += weight * (n - held);
  }
  return [...counts.values()];
}

/** The grid of ln T50 by slope; its points are numbered by tempo, then by slope. */
const lnT50s = Array.from(
  { length: TEMPOS },
  (_, i) => ln(SLOWEST) + (ln(FASTEST / SLOWEST) * i) / (TEMPOS - 1),
);
const deviates = Array.from({ length: SLOPES }, (_, j) => SLOPE_REACH * ((2 * j) / (SLOPES - 1) - 1));
const slopes = deviates.map((z) => SLOPE_MEDIAN * exp(SLOPE_SD * z));

/** Weights of the grid's points; the largest is 1. */
function posterior(counts: readonly TempoCount[]): Float64Array {
  const logs = new Float64Array(TEMPOS * SLOPES);
  for (const { bpm, held, notHeld } of counts) {
    const of = chancesAt(bpm);
    for (let at = 0; at < logs.length; at += 1) {
      if (held > 0) logs[at] += held * of.held[at];
      if (notHeld > 0) logs[at] += notHeld * of.notHeld[at];
    }
  }
  let most = -Infinity;
  for (let at = 0; at < logs.length; at += 1) {
    logs[at] -= square(deviates[at % SLOPES]) / 2;
    if (logs[at] > most) most = logs[at];
  }
  // In place: what were logarithms are weights from here on.
  for (let at = 0; at < logs.length; at += 1) {
    const below = logs[at] - most;
    logs[at] = below < LEAST_LN ? 0 : exp(below);
  }
  return logs;
}

/** A point that weighs less beside the heaviest, e⁻⁴⁰ or a 10⁻¹⁷th of it, is left out: no sum of all of them shows it. */
const LEAST_LN = -40;

/** For each point of the grid: ln of the chance that a bar at a tempo holds there, and that it doesn't. */
interface Chances {
  readonly held: Float64Array;
  readonly notHeld: Float64Array;
}

const chances = new Map<Bpm, Chances>();
/** Tempos whose chances are remembered: those of a few phrases. */
const MOST_REMEMBERED = 64;

/** They are the same for all bars at a tempo, and many ceilings are told one after the other. */
function chancesAt(bpm: Bpm): Chances {
  const known = chances.get(bpm);
  if (known !== undefined) return known;
  const made = { held: new Float64Array(TEMPOS * SLOPES), notHeld: new Float64Array(TEMPOS * SLOPES) };
  lnT50s.forEach((middle, i) => {
    slopes.forEach((b, j) => {
      made.held[i * SLOPES + j] = heldLikelihood([{ bpm, held: 1, notHeld: 0 }], middle, b);
      made.notHeld[i * SLOPES + j] = heldLikelihood([{ bpm, held: 0, notHeld: 1 }], middle, b);
    });
  });
  if (chances.size >= MOST_REMEMBERED) chances.clear();
  chances.set(bpm, made);
  return made;
}

/** The grid's points by the ln of the tempo at which a share of bars holds there: the points, and those logarithms. */
interface PointsInOrder {
  readonly index: Int32Array;
  readonly at: Float64Array;
}

const inOrder = new Map<number, PointsInOrder>();

/** They are the same for all bars, and many ceilings are told one after the other. */
function pointsInOrder(share: number): PointsInOrder {
  const known = inOrder.get(share);
  if (known !== undefined) return known;
  const points = lnT50s
    .flatMap((middle, i) =>
      slopes.map((b, j) => ({ at: ln(tempoWhere(share, middle, b)), index: i * SLOPES + j })),
    )
    .sort((a, b) => a.at - b.at);
  const made = {
    index: Int32Array.from(points, ({ index }) => index),
    at: Float64Array.from(points, ({ at }) => at),
  };
  inOrder.set(share, made);
  return made;
}

/** Quantiles of the tempo at which a share of bars holds, between grid points in ln T. */
function quantiles(weights: Float64Array, share: number): (quantile: number) => number {
  const { index, at: places } = pointsInOrder(share);
  let total = 0;
  for (const point of index) total += weights[point];
  return (quantile) => {
    // each point stands for the middle of its own weight
    let before = 0;
    let at: number | undefined;
    let passed = 0;
    for (let n = 0; n < index.length; n += 1) {
      const weight = weights[index[n]];
      if (weight === 0) continue;
      const here = (passed + weight / 2) / total;
      const from: number = at ?? places[n];
      if (here >= quantile) {
        const step = here - before;
        return exp(step > 0 ? from + ((places[n] - from) * (quantile - before)) / step : places[n]);
      }
      before = here;
      at = places[n];
      passed += weight;
    }
    return exp(at ?? 0);
  };
}
