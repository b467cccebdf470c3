import { atan2, cos, sin } from '../exact';
import type { Settings } from '../settings';
import type { Ms } from '../units';
import { kernel, loudestLevel, offsetCost, STEPS_A_GAP } from './offset';
import { pair } from './pairing';
import { firstTargets, type Targets } from './targets';

/**
 * The offset as the strokes so far have it, constant work a stroke. On a regular grid their circular mean modulo the
 * gap; on an irregular one the shift with the largest sum of weights (see `kernel`) among steps of g/48. Of the offsets
 * a gap apart the one nearest to `near` is meant. This object is written to.
 */
export interface RunningOffset {
  cosines: number;
  sines: number;
  /** Sums of weights by shift, from −0.75 g; empty on a regular grid. */
  readonly weights: Float64Array;
  near: Ms;
  /** No offset beyond this is meant. */
  readonly reachMs: Ms;
  /** Slot the last stroke was nearest to: where the next look begins. */
  slot: number;
}

/** A rig that knows its offset counts as this many strokes that showed it. */
const KNOWN_STROKES = 8;

export function runningOffset(targets: Targets, settings: Settings, knownMs: Ms | undefined): RunningOffset {
  const steps = Math.floor(settings['offset.reachGaps'] * STEPS_A_GAP);
  const weights = new Float64Array(targets.regular ? 0 : 2 * steps + 1);
  const reachMs = settings['offset.reachGaps'] * targets.smallestGapMs;
  const running = { cosines: 0, sines: 0, weights, near: knownMs ?? 0, reachMs, slot: 0 };
  if (knownMs === undefined || targets.count === 0) return running;
  if (targets.regular) {
    running.cosines = KNOWN_STROKES * cos(angleOf(targets, targets.at[0] + knownMs));
    running.sines = KNOWN_STROKES * sin(angleOf(targets, targets.at[0] + knownMs));
  } else {
    const step = targets.smallestGapMs / STEPS_A_GAP;
    for (let k = 0; k < weights.length; k++) {
      weights[k] = KNOWN_STROKES * kernel(((k - steps) * step - knownMs) / targets.smallestGapMs);
    }
  }
  return running;
}

/** One stroke more (`sign` 1), or one taken back (−1). */
export function countStroke(running: RunningOffset, targets: Targets, atMs: Ms, sign: 1 | -1): void {
  if (targets.count === 0) return;
  if (targets.regular) {
    running.cosines += sign * cos(angleOf(targets, atMs));
    running.sines += sign * sin(angleOf(targets, atMs));
    return;
  }
  const { weights } = running;
  const steps = (weights.length - 1) / 2;
  const step = targets.smallestGapMs / STEPS_A_GAP;
  let { slot } = running;
  for (let k = weights.length - 1; k >= 0; k--) {
    const time = atMs - (k - steps) * step;
    while (slot > 0 && time - targets.at[slot - 1] <= targets.at[slot] - time) slot--;
    while (slot + 1 < targets.count && targets.at[slot + 1] - time < time - targets.at[slot]) slot++;
    weights[k] += sign * kernel((time - targets.at[slot]) / targets.smallestGapMs);
  }
  running.slot = slot;
}

/** The offset now, in ms; before any stroke the known one, else 0. */
export function offsetNow(running: RunningOffset, targets: Targets): Ms {
  const gap = targets.smallestGapMs;
  if (!targets.regular) return heaviestShift(running, gap);
  if (running.cosines === 0 && running.sines === 0) return running.near;
  const inOneGap = (atan2(running.sines, running.cosines) * gap) / (2 * Math.PI);
  const near = inOneGap + Math.round((running.near - inOneGap) / gap) * gap;
  return Math.abs(near) <= running.reachMs ? near : inOneGap;
}

/**
 * Decides between offsets a gap apart as the batch does, over the bars so far: of the offsets a gap apart
 * the one with the fewest misses + extras + accent disagreements + ½·|o|/g.
 * @param endMs end of those bars, and `slots` the slots in them
 */
export function wholeGap(
  targets: Targets,
  played: { readonly at: Float64Array; readonly level: Float64Array; readonly count: number },
  offsetMs: Ms,
  slots: number,
  endMs: Ms,
  settings: Settings,
): Ms {
  const gap = targets.smallestGapMs;
  const reach = settings['offset.reachGaps'] * gap;
  const due = firstTargets(targets, slots);
  let best = offsetMs;
  let bestCost = Infinity;
  const least = offsetMs - Math.round(offsetMs / gap) * gap;
  for (const candidate of [least, least - gap, least + gap]) {
    if (candidate !== least && Math.abs(candidate) > reach) continue;
    let count = 0;
    while (count < played.count && played.at[count] - candidate < endMs - gap / 2) count++;
    const level = played.level.subarray(0, count);
    const slotOf = pair(due, played.at.subarray(0, count), candidate, settings['pairing.limitLive']);
    const cost = offsetCost(due, { level }, slotOf, loudestLevel(due, { level, count }), candidate);
    if (cost < bestCost) {
      bestCost = cost;
      best = candidate;
    }
  }
  return best;
}

function angleOf(targets: Targets, atMs: Ms): number {
  return (2 * Math.PI * (atMs - targets.at[0])) / targets.smallestGapMs;
}

/** The heaviest shift within half a gap of `near`, between two steps by a parabola. */
function heaviestShift({ weights, near, reachMs }: RunningOffset, gap: Ms): Ms {
  const steps = (weights.length - 1) / 2;
  const step = gap / STEPS_A_GAP;
  let best = -1;
  for (let k = 0; k < weights.length; k++) {
    if (Math.abs((k - steps) * step - near) > gap / 2 + step / 2) continue;
    if (best < 0 || weights[k] > weights[best]) best = k;
  }
  if (best < 0 || weights[best] <= 0) return near;
  const left = best > 0 ? weights[best - 1] : weights[best];
  const right = best + 1 < weights.length ? weights[best + 1] : weights[best];
  const bend = left - 2 * weights[best] + right;
  const part = bend < 0 ? Math.max(-0.5, Math.min(0.5, (left - right) / (2 * bend))) : 0;
  return Math.max(-reachMs, Math.min(reachMs, (best - steps + part) * step));
}
