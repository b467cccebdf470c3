import { square } from '../../../exact';
import type { Estimate } from '../../numbers/intervals';
import { studentQuantile } from '../../numbers/statistics';
import type { TimedBar } from './types';
import { mean, median } from '../../../ordered';

const HIGH = 0.95;
/** Variance of the median of so many values, in variances of one: 1, ½ and 0.449 of normal ones, then π/2n. */
const MEDIAN_VARIANCES = [1, 0.5, 0.449];
const STILL_MS = 1e-9;
const MOST_ROUNDS = 1000;

/**
 * How late each variation comes against the others, ms: the mean of its bars, each less its cycle's mean, less the
 * median of the same of the other variations. A missing bar is filled with its cycle's mean and its variation's
 * effect, and takes a degree of freedom. Cycles with a single variation say nothing.
 * @param bars any number of bars a variation and cycle, means of `timeModel`
 * @returns by number of the variation; undefined for one with under two cycles, or where nothing is left to tell an
 * error by
 * @example of two variations 40 ms apart: +40 for the later, −40 for the other
 */
export function arrivals(bars: readonly TimedBar[], variations: number): readonly (Estimate | undefined)[] {
  const inestimable = Array.from({ length: variations }, () => undefined);
  const { cells, present, missing } = cellsOf(bars, variations);
  const [cycles, kinds] = [cells.length, present.length];
  const free = (kinds - 1) * (cycles - 1) - missing;
  if (kinds < 2 || cycles < 2 || free < 1) return inestimable;
  const { effects, squares } = fitted(cells, kinds);
  const reach =
    studentQuantile(HIGH, free) * Math.sqrt((squares / free / cycles) * (1 + ofMedian(kinds - 1)));
  return inestimable.map((_, variation): Estimate | undefined => {
    const own = present.indexOf(variation);
    if (own < 0) return undefined;
    const value = effects[own] - (median(effects.filter((__, other) => other !== own)) ?? 0);
    return { value, interval: [value - reach, value + reach] };
  });
}

/** A cycle: the mean of each variation's bars in it; undefined where it has none. */
type Cycle = (number | undefined)[];

interface CellsOf {
  readonly cells: readonly Cycle[];
  /** Variations with cells in two cycles at least, in order: the columns of `cells`. */
  readonly present: readonly number[];
  readonly missing: number;
}

function cellsOf(bars: readonly TimedBar[], variations: number): CellsOf {
  const sums = new Map<number, { sum: number; count: number }[]>();
  for (const { cycle, variation, meanMs } of bars) {
    const ofCycle = sums.get(cycle) ?? Array.from({ length: variations }, () => ({ sum: 0, count: 0 }));
    sums.set(cycle, ofCycle);
    ofCycle[variation].sum += meanMs;
    ofCycle[variation].count++;
  }
  const all = [...sums.values()].map((ofCycle): Cycle =>
    ofCycle.map(({ sum, count }) => (count === 0 ? undefined : sum / count)),
  );
  const seen = (v: number): number => all.filter((cycle) => cycle[v] !== undefined).length;
  const present = Array.from({ length: variations }, (_, v) => v).filter((v) => seen(v) >= 2);
  const cells = all
    .map((cycle): Cycle => present.map((v) => cycle[v]))
    .filter((cycle) => cycle.filter((cell) => cell !== undefined).length >= 2);
  const missing = cells.reduce((sum, cycle) => sum + cycle.filter((cell) => cell === undefined).length, 0);
  return { cells, present, missing };
}

/** Effects of the variations about their mean, and what is left, squared: cells less cycle mean less effect. */
function fitted(cells: readonly Cycle[], kinds: number): { effects: number[]; squares: number } {
  let effects = new Array<number>(kinds).fill(0);
  const meanOf = (cycle: Cycle): number =>
    mean(cycle.flatMap((cell, v) => (cell === undefined ? [] : [cell - effects[v]]))) ?? 0;
  // With every cell there this is settled after one round.
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const means = cells.map(meanOf);
    const next = effects.map(
      (effect, v) =>
        mean(cells.map((cycle, c) => (cycle[v] === undefined ? effect : cycle[v] - means[c]))) ?? 0,
    );
    const middle = mean(next) ?? 0;
    const moved = Math.max(...next.map((effect, v) => Math.abs(effect - middle - effects[v])));
    effects = next.map((effect) => effect - middle);
    if (moved < STILL_MS) break;
  }
  let squares = 0;
  for (const cycle of cells) {
    const middle = meanOf(cycle);
    cycle.forEach((cell, v) => {
      if (cell !== undefined) squares += square(cell - middle - effects[v]);
    });
  }
  return { effects, squares };
}

function ofMedian(others: number): number {
  return MEDIAN_VARIANCES[others - 1] ?? Math.PI / (2 * others);
}
