import { columnOf } from '../../column';
import type { Slot } from '../../exercises/types';
import { who, type Scope } from './codes';
import type { Columns } from './columns';
import { driftFactor } from '../numbers/drift-factor';

/**
 * Deviations sorted once by (variation, place, who struck): each place of a variation is one run of a typed array,
 * and within it each hand is one run. The two notes of a unison are two places: between them lies the lag, no scatter.
 */
export interface TimingGroups {
  /** Deviations of each place of the scope, places without strokes left out; a hand's scope has no wrong hands. */
  places(scope: Scope): readonly Float64Array[];
  /** All deviations of the scope, ms. */
  all(scope: Scope): Float64Array;
  /** Mean gap of the scope's matched slots, ms; undefined where none was matched. */
  meanGapMs(scope: Scope): number | undefined;
  /** Mean deviation of the place slot `i` belongs to, ms; NaN where nothing of it was matched. */
  placeMeanMs(i: number): number;
  /** How much slow drifts widen the intervals of spreads of this take: `numbers/drift-factor.ts`. */
  readonly driftFactor: number;
}

const WHOS = 3;

export function groupTiming(columns: Columns): TimingGroups {
  const { slots } = columns.graded.grid;
  const variations = columns.names.length;
  const longest = 1 + slots.reduce((most, slot) => Math.max(most, slot.place), 0);
  const placeOf = ({ place, together, hand }: Slot): number =>
    together === 2 && hand === 'L' ? longest + place : place;
  const places = slots.some(({ together }) => together === 2) ? 2 * longest : longest;
  const keys = variations * places * WHOS;
  const starts = new Int32Array(keys + 1);
  const gaps = new Float64Array(keys);
  const key = new Int32Array(slots.length).fill(-1);
  for (let i = 0; i < slots.length; i++) {
    if (columns.who[i] === who.none) continue;
    key[i] = (columns.variation[i] * places + placeOf(slots[i])) * WHOS + columns.who[i];
    starts[key[i] + 1]++;
    gaps[key[i]] += slots[i].gapMs;
  }
  for (let k = 0; k < keys; k++) starts[k + 1] += starts[k];
  const sorted = new Float64Array(starts[keys]);
  const free = starts.slice();
  for (let i = 0; i < slots.length; i++) if (key[i] >= 0) sorted[free[key[i]]++] = columns.deviationMs[i];

  const means = new Float64Array(variations * places);
  for (let place = 0; place < means.length; place++) {
    const run = sorted.subarray(starts[place * WHOS], starts[(place + 1) * WHOS]);
    means[place] = run.reduce((sum, deviation) => sum + deviation, 0) / run.length;
  }

  const placeMeanMs = (i: number): number => means[columns.variation[i] * places + placeOf(slots[i])];
  const residuals = columnOf(key.length, (i) => (key[i] < 0 ? 0 : columns.deviationMs[i] - placeMeanMs(i)));

  /** Runs of keys [from, to) of each place in the scope. */
  const runs = ({ variation, hand }: Scope): [number, number][] => {
    const first = (variation ?? 0) * places;
    const last = variation === undefined ? variations * places : first + places;
    return Array.from({ length: last - first }, (_, step) => {
      const base = (first + step) * WHOS;
      return hand === undefined ? [base, base + WHOS] : [base + who[hand], base + who[hand] + 1];
    });
  };
  const placesOf = (scope: Scope): Float64Array[] =>
    runs(scope)
      .map(([from, to]) => sorted.subarray(starts[from], starts[to]))
      .filter((run) => run.length > 0);

  return {
    places: placesOf,
    all(scope) {
      const parts = placesOf(scope);
      const joined = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
      let filled = 0;
      for (const part of parts) {
        joined.set(part, filled);
        filled += part.length;
      }
      return joined;
    },
    meanGapMs(scope) {
      let sum = 0;
      let n = 0;
      for (const [from, to] of runs(scope)) {
        n += starts[to] - starts[from];
        for (let k = from; k < to; k++) sum += gaps[k];
      }
      return n === 0 ? undefined : sum / n;
    },
    placeMeanMs,
    driftFactor: driftFactor(residuals, slotsOfTwoBars(columns)),
  };
}

/** Errors this far apart are not asked whether they lean on each other. */
function slotsOfTwoBars({ graded: { grid } }: Columns): number {
  const played = grid.bars.filter(({ slots }) => slots > 0).length;
  return played === 0 ? 0 : Math.round((2 * grid.slots.length) / played);
}
