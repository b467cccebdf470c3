import type { Grid } from '../../exercises/types';
import { countWhile } from '../../ordered';
import type { Ms } from '../../units';

/** Every partial of a grid, rests and bars without slots too: where a stroke can stand, one place after another. */
export interface Lattice {
  readonly at: Float64Array;
  /** First slot that stands on it, −1 for none. */
  readonly slot: Int32Array;
  readonly bar: Int32Array;
  /** Place within its bar. */
  readonly inBar: Int32Array;
  readonly perCycle: number;
  /** Places whose distances repeat: 1 where all are alike, 2 where they swing; undefined where they don't repeat. */
  readonly period: 1 | 2 | undefined;
  /** Mean distance. */
  readonly stepMs: Ms;
}

const SAME_MS = 1e-6;

export function latticeOf(grid: Grid): Lattice {
  const at: number[] = [];
  const slot: number[] = [];
  const bars: number[] = [];
  const inBar: number[] = [];
  let perCycle = 0;
  for (const bar of grid.bars) {
    if (bar.index === grid.barsPerCycle) perCycle = at.length;
    const from = at.length;
    bar.partialsPerBeat.forEach((partials, beat) => {
      const startMs = bar.beatsMs[beat];
      const endMs = bar.beatsMs[beat + 1] ?? bar.endMs;
      for (let partial = 0; partial < partials; partial += 1) {
        inBar.push(at.length - from);
        bars.push(bar.index);
        slot.push(-1);
        at.push(startMs + (partial / partials) * (endMs - startMs));
      }
    });
    for (let i = bar.firstSlot + bar.slots - 1; i >= bar.firstSlot; i -= 1) {
      const place = from + grid.slots[i].partial;
      slot[place] = i;
      at[place] = grid.slots[i].atMs;
    }
  }
  if (perCycle === 0) perCycle = at.length;
  const lastMs = grid.bars[grid.bars.length - 1].endMs;
  return {
    at: Float64Array.from(at),
    slot: Int32Array.from(slot),
    bar: Int32Array.from(bars),
    inBar: Int32Array.from(inBar),
    perCycle,
    period: periodOf(at),
    stepMs: (lastMs - at[0]) / at.length,
  };
}

function periodOf(at: readonly number[]): 1 | 2 | undefined {
  for (const period of [1, 2] as const) {
    const spanMs = at[period] - at[0];
    if (at.every((ms, i) => i < period || Math.abs(ms - at[i - period] - spanMs) < SAME_MS)) return period;
  }
  return undefined;
}

/** Its bars up to the one with this index, over the same memory. */
export function latticeTo(lattice: Lattice, bar: number): Lattice {
  const count = countWhile(lattice.bar.length, (place) => lattice.bar[place] <= bar);
  return {
    ...lattice,
    at: lattice.at.subarray(0, count),
    slot: lattice.slot.subarray(0, count),
    bar: lattice.bar.subarray(0, count),
    inBar: lattice.inBar.subarray(0, count),
  };
}

/** When a place comes, also before the first and behind the last. */
export function timeOfPlace({ at, period = 1 }: Lattice, place: number): Ms {
  const count = at.length;
  if (place >= 0 && place < count) return at[place];
  const near = place < 0 ? mod(place, period) : count - period + mod(place - count, period);
  const turns = (place - near) / period;
  const from = place < 0 ? 0 : count - 1 - period;
  return at[near] + turns * (at[from + period] - at[from]);
}

/** Strokes on a lattice: their times in order, and where on it they lie, in places and their parts. */
export interface OnLattice {
  readonly lattice: Lattice;
  readonly at: Float64Array;
  readonly places: Float64Array;
}

/** Where on the lattice times lie, in places and their parts. @param times in order */
export function placesOf(lattice: Lattice, times: ArrayLike<Ms>): Float64Array {
  const { at } = lattice;
  const places = new Float64Array(times.length);
  let place = 0;
  for (let i = 0; i < times.length; i += 1) {
    const ms = times[i];
    while (place + 1 < at.length && at[place + 1] <= ms) place += 1;
    let here = place;
    if (ms < at[0] || place === at.length - 1) {
      while (timeOfPlace(lattice, here) > ms) here -= 1;
      while (timeOfPlace(lattice, here + 1) <= ms) here += 1;
    }
    const fromMs = timeOfPlace(lattice, here);
    places[i] = here + (ms - fromMs) / (timeOfPlace(lattice, here + 1) - fromMs);
  }
  return places;
}

export const mod = (value: number, by: number): number => ((value % by) + by) % by;
