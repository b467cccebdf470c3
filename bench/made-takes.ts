import type { AlignStroke } from '../src/alignment/types';
import type { Grid } from '../src/exercises/types';

/** A stream of numbers from 0 to 1 that a seed fixes (mulberry32, public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Standard normal, by Box and Muller. */
export function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** How a take is made. Times in ms, levels in dB. */
export interface Making {
  readonly seed: number;
  readonly sdMs: number;
  readonly offsetMs?: number;
  /** Shares of strokes left out and added. */
  readonly missed?: number;
  readonly added?: number;
  readonly levelSdDb?: number;
  /** Pattern played `lag` places ahead from `from` up to and without `to`. */
  readonly slip?: { readonly from: number; readonly to: number; readonly lag: number };
  /** Where a slot is really played; default: where it is due. */
  readonly playedAtMs?: (slot: number) => number;
}

export interface Made {
  readonly strokes: readonly AlignStroke[];
  /** For each slot the stroke that was meant for it, or −1 where it was left out. */
  readonly strokeOf: Int32Array;
}

/**
 * A take with its truth: Gaussian, independent strokes, accents −4, soft strokes −20 dB; what is added falls anywhere,
 * as loud as a soft stroke.
 */
export function madeTake(grid: Grid, making: Making): Made {
  const random = seeded(making.seed);
  const levelSd = making.levelSdDb ?? 1.2;
  const { slots } = grid;
  const all: { stroke: AlignStroke; slot: number }[] = [];
  const add = (atMs: number, levelDb: number, slot: number): void => {
    all.push({ stroke: { atMs, levelDb: Math.min(0, levelDb), hand: null, echoLike: false }, slot });
  };
  slots.forEach((slot, i) => {
    const noise = normal(random) * making.sdMs;
    const level = normal(random) * levelSd;
    const lost = random() < (making.missed ?? 0);
    const extra = random() < (making.added ?? 0);
    const extraAt = random();
    const { slip } = making;
    const lag = slip !== undefined && i >= slip.from && i < slip.to ? slip.lag : 0;
    const kind = slots[(i + lag + slots.length) % slots.length].kind;
    const dueMs = (making.playedAtMs?.(i) ?? slot.atMs) + (making.offsetMs ?? 0);
    if (!lost) add(dueMs + noise, (kind === 'accent' ? -4 : -20) + level, i);
    if (extra) add(slot.atMs + extraAt * slot.gapMs, -20 + normal(random) * levelSd, -1);
  });
  all.sort((a, b) => a.stroke.atMs - b.stroke.atMs);
  const strokeOf = new Int32Array(slots.length).fill(-1);
  all.forEach(({ slot }, i) => {
    if (slot >= 0) strokeOf[slot] = i;
  });
  return { strokes: all.map(({ stroke }) => stroke), strokeOf };
}

/** The baseline pairing is held against: each stroke to its nearest slot, of two the nearer one, offset given. */
export function nearestSlotPairing(
  grid: Grid,
  strokes: readonly AlignStroke[],
  offsetMs: number,
): Int32Array {
  const strokeOf = new Int32Array(grid.slots.length).fill(-1);
  const distance = new Float64Array(grid.slots.length).fill(Infinity);
  let slot = 0;
  strokes.forEach(({ atMs }, i) => {
    const time = atMs - offsetMs;
    while (slot + 1 < grid.slots.length && grid.slots[slot + 1].atMs - time < time - grid.slots[slot].atMs)
      slot++;
    const far = Math.abs(time - grid.slots[slot].atMs);
    if (far < distance[slot] && far <= grid.slots[slot].gapMs / 2) {
      distance[slot] = far;
      strokeOf[slot] = i;
    }
  });
  return strokeOf;
}
