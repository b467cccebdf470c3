import { atan2, cos, sin } from '../exact';
import type { Settings } from '../settings';
import type { Ms } from '../units';
import { scaledMadInPlace, medianInPlace, select } from '../ordered';
import { pair, pairingTable } from './pairing';
import { nearestDeviations, type Played, type Targets } from './targets';

/** An offset with what was paired under it. */
export interface Settled {
  /** Stroke − slot that is common to the take, in ms. Negative is early. */
  readonly offsetMs: Ms;
  /** Pairing limit L, in units of a slot's gap. */
  readonly limitGaps: number;
  /** For each stroke the slot it answers, or −1. */
  readonly slotOf: Int32Array;
}

/**
 * The offset of a take and the pairs under it. The offset is known only modulo the smallest gap g: o, o − g and o + g,
 * as far as within `offset.reachGaps`, are each paired; the one with the fewest misses + extras + accent
 * disagreements + ½·|o|/g stands. An accent disagreement is a stroke among the loudest n on a soft slot or the
 * reverse, n the number of accents due.
 */
export function settleOffset(targets: Targets, played: Played, settings: Settings): Settled {
  const table = pairingTable(played.at);
  const loud = loudestLevel(targets, played);
  let best: Settled | undefined;
  let bestCost = Infinity;
  for (const offsetMs of offsetCandidates(targets, played.at, settings)) {
    const limitGaps = limitUnder(targets, played.at, offsetMs, settings);
    const slotOf = pair(targets, played.at, offsetMs, limitGaps, table);
    const cost = offsetCost(targets, played, slotOf, loud, offsetMs);
    if (cost < bestCost) {
      bestCost = cost;
      best = { offsetMs, limitGaps, slotOf };
    }
  }
  return best ?? { offsetMs: 0, limitGaps: settings['pairing.limitLeast'], slotOf: new Int32Array(0) };
}

/** The offset modulo the smallest gap, then one gap either way, as far as within reach. Never empty. */
export function offsetCandidates(targets: Targets, at: Float64Array, settings: Settings): number[] {
  if (at.length === 0 || targets.count === 0) return [0];
  const gap = targets.smallestGapMs;
  const reach = settings['offset.reachGaps'] * gap;
  const first = targets.regular
    ? circularOffset(at, targets.at[0], gap)
    : medianOffset(targets, at, kernelOffset(targets, at));
  const shifted = [first - gap, first + gap]
    .filter((offset) => Math.abs(offset) <= reach)
    .map((offset) => (targets.regular ? offset : medianOffset(targets, at, offset)));
  return [first, ...shifted];
}

/**
 * Pairing limit L under an offset: 4 × 1.4826·MAD of the strokes' signed deviations from their nearest slots, in gaps,
 * not under 0.4 and not over 0.999. With half a gap pairing is nearest-slot and no better; L lets a late stroke keep
 * its slot while its neighbours keep theirs.
 */
export function limitUnder(targets: Targets, at: Float64Array, offsetMs: Ms, settings: Settings): number {
  const least = settings['pairing.limitLeast'];
  if (at.length === 0 || targets.count === 0) return least;
  const deviations = new Float64Array(at.length);
  nearestDeviations(targets, at, at.length, offsetMs, deviations);
  const spread = scaledMadInPlace(deviations) ?? 0;
  return Math.min(settings['pairing.limitMost'], Math.max(least, settings['pairing.spreadFactor'] * spread));
}

/** Level from which a stroke is among the loudest n, n the number of accents due; Infinity where none is. */
export function loudestLevel(targets: Targets, played: Pick<Played, 'count' | 'level'>): number {
  let accents = 0;
  for (let i = 0; i < targets.count; i++) accents += targets.accent[i];
  if (accents === 0 || played.count === 0) return Infinity;
  if (accents >= played.count) return -Infinity;
  return select(played.level.slice(0, played.count), played.count, played.count - accents);
}

/** What the whole gap is chosen by: misses + extras + accent disagreements + ½·|o|/g. */
export function offsetCost(
  targets: Targets,
  played: { readonly level: Float64Array },
  slotOf: Int32Array,
  loud: number,
  offsetMs: number,
): number {
  let paired = 0;
  let disagreements = 0;
  for (let i = 0; i < slotOf.length; i++) {
    const slot = slotOf[i];
    if (slot < 0) continue;
    paired++;
    if (loud !== Infinity && played.level[i] >= loud !== (targets.accent[slot] === 1)) disagreements++;
  }
  const far = (0.5 * Math.abs(offsetMs)) / targets.smallestGapMs;
  return targets.count + slotOf.length - 2 * paired + disagreements + far;
}

/**
 * Circular mean of (stroke − first slot) modulo the gap, in ms from −gap/2 to gap/2.
 * The angle is 2π·(t mod gap)/gap; a constant shift of the strokes shifts it alike.
 */
export function circularOffset(at: Float64Array, firstSlotMs: Ms, gapMs: Ms): number {
  let cosines = 0;
  let sines = 0;
  const turn = (2 * Math.PI) / gapMs;
  for (const time of at) {
    const angle = (time - firstSlotMs) * turn;
    cosines += cos(angle);
    sines += sin(angle);
  }
  return atan2(sines, cosines) / turn;
}

/** Steps of the search on an irregular grid, in parts of the smallest gap. */
export const STEPS_A_GAP = 48;

/**
 * Weight of a stroke d gaps from its nearest slot: max(0, 1 − (4d)²)². 1 on the slot, 0 from a quarter of the gap on.
 * @example kernel(0) // => 1
 * @example kernel(0.25) // => 0
 */
export function kernel(gaps: number): number {
  const inside = 1 - 16 * gaps * gaps;
  return inside > 0 ? inside * inside : 0;
}

/** Strokes the search looks at: enough for a start that the medians over all strokes then make exact. */
const LOOKED_AT = 4096;

/**
 * On an irregular grid: the shift within half the smallest gap, in steps of g/48, with the largest sum of weights, over
 * the first 4096 strokes.
 */
function kernelOffset(targets: Targets, strokesAt: Float64Array): number {
  const at = strokesAt.subarray(0, LOOKED_AT);
  const step = targets.smallestGapMs / STEPS_A_GAP;
  let best = 0;
  let bestSum = -1;
  for (let k = 0; k <= STEPS_A_GAP; k++) {
    // 0, +1, −1, +2, …: of equal sums the smallest shift stands.
    const shift = (k % 2 === 1 ? (k + 1) / 2 : -k / 2) * step;
    const sum = kernelSum(targets, at, shift);
    if (sum > bestSum) {
      bestSum = sum;
      best = shift;
    }
  }
  return best;
}

function kernelSum(targets: Targets, at: Float64Array, shift: number): number {
  const perGap = 1 / targets.smallestGapMs;
  let slot = 0;
  let sum = 0;
  for (const atMs of at) {
    const time = atMs - shift;
    while (slot + 1 < targets.count && targets.at[slot + 1] - time < time - targets.at[slot]) slot++;
    sum += kernel((time - targets.at[slot]) * perGap);
  }
  return sum;
}

/** Three times: the offset moves by the median of the deviations that lie within half the smallest gap. */
function medianOffset(targets: Targets, at: Float64Array, start: number): number {
  const half = targets.smallestGapMs / 2;
  const near = new Float64Array(at.length);
  let offset = start;
  for (let round = 0; round < 3; round++) {
    let count = 0;
    let slot = 0;
    for (const atMs of at) {
      const time = atMs - offset;
      while (slot + 1 < targets.count && targets.at[slot + 1] - time < time - targets.at[slot]) slot++;
      const deviation = time - targets.at[slot];
      if (Math.abs(deviation) <= half) near[count++] = deviation;
    }
    offset += medianInPlace(near, count) ?? 0;
  }
  return offset;
}
