import type { Targets } from './targets';
import { countWhile } from '../ordered';

/** Times of strokes in order; `count` of them are in use. */
interface Times {
  readonly count: number;
  readonly at: Float64Array;
}

/**
 * The echo-like stroke that answers an empty slot after all: the nearest, offset off, within half a gap of it
 * (`echo.fillGaps`), kept in the order of the pairs about it. Of two as near the earlier; half-way between two slots it
 * is the earlier's.
 * @param echoes echo-like strokes in time order
 * @param slotOf for each stroke that is no echo, the slot it answers, or −1
 * @returns its place in `echoes`, or −1
 */
export function echoFor(
  slot: number,
  targets: Targets,
  echoes: Times,
  strokes: Times,
  slotOf: Int32Array,
  offsetMs: number,
  fillGaps: number,
): number {
  const reach = fillGaps * targets.gap[slot];
  let best = -1;
  let bestDistance = Infinity;
  for (let i = firstFrom(echoes, targets.at[slot] + offsetMs - reach - ROUNDING_MS); i < echoes.count; i++) {
    const time = echoes.at[i] - offsetMs;
    const late = time - targets.at[slot];
    if (late > reach) break;
    const distance = Math.abs(late);
    if (distance > reach || distance >= bestDistance || !isNearest(slot, targets, time)) continue;
    if (!keepsOrder(slot, echoes.at[i], strokes, slotOf)) continue;
    best = i;
    bestDistance = distance;
  }
  return best;
}

/** So that a stroke just at the edge is looked at; what counts is decided by its distance. */
const ROUNDING_MS = 1e-6;

/** True where no other slot is nearer, nor the one before as near: so no echo is two slots' own. */
function isNearest(slot: number, { at, count }: Targets, time: number): boolean {
  if (slot > 0 && time - at[slot - 1] <= at[slot] - time) return false;
  return slot + 1 >= count || time - at[slot] <= at[slot + 1] - time;
}

/** True where the paired stroke before `at` answers an earlier slot, and the one after a later slot. */
function keepsOrder(slot: number, at: number, strokes: Times, slotOf: Int32Array): boolean {
  const next = firstFrom(strokes, at);
  let before = next - 1;
  while (before >= 0 && slotOf[before] < 0) before--;
  if (before >= 0 && slotOf[before] > slot) return false;
  let after = next;
  while (after < strokes.count && slotOf[after] < 0) after++;
  return after >= strokes.count || slotOf[after] > slot;
}

/** The first stroke at or after a time. */
function firstFrom(strokes: Times, atMs: number): number {
  return countWhile(strokes.count, (index) => strokes.at[index] < atMs);
}
