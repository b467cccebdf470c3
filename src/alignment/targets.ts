import type { Grid } from '../exercises/types';
import { InputError } from '../errors';
import type { AlignStroke } from './types';

/** Hands as numbers, so that agreeing is a product: R +1, L −1, not known 0. */
type HandSign = -1 | 0 | 1;

/** The slots of a grid as columns, so that the inner loops read numbers only. */
export interface Targets {
  readonly count: number;
  readonly at: Float64Array;
  /** Distance to the nearer neighbouring slot, in ms; always positive. */
  readonly gap: Float64Array;
  /** 1 for an accent, 0 for a soft stroke. */
  readonly accent: Uint8Array;
  /** 0 for a unison's onset, which is of both. */
  readonly hand: Int8Array;
  readonly smallestGapMs: number;
  readonly regular: boolean;
}

/** Strokes as columns, in time order. `index` is the place among the strokes given to `align`. */
export interface Played {
  readonly count: number;
  readonly at: Float64Array;
  readonly level: Float64Array;
  readonly hand: Int8Array;
  readonly index: Int32Array;
}

/** A grid of one slot has no gap: any will do, a second is meant here. */
const LONE_GAP_MS = 1000;

export function targetsOf(grid: Grid): Targets {
  const count = grid.slots.length;
  const targets = {
    count,
    at: new Float64Array(count),
    gap: new Float64Array(count),
    accent: new Uint8Array(count),
    hand: new Int8Array(count),
    smallestGapMs: usable(grid.smallestGapMs),
    regular: grid.regular,
  };
  for (let i = 0; i < count; i++) {
    const slot = grid.slots[i];
    targets.at[i] = slot.atMs;
    targets.gap[i] = usable(slot.gapMs);
    targets.accent[i] = slot.kind === 'accent' ? 1 : 0;
    targets.hand[i] = slot.together === 2 ? 0 : slot.hand === 'R' ? 1 : -1;
  }
  return targets;
}

/** The first `count` slots of `targets`, over the same memory. */
export function firstTargets(targets: Targets, count: number): Targets {
  return {
    ...targets,
    count,
    at: targets.at.subarray(0, count),
    gap: targets.gap.subarray(0, count),
    accent: targets.accent.subarray(0, count),
    hand: targets.hand.subarray(0, count),
  };
}

/** The first bars of a grid. */
export function firstBars(grid: Grid, count: number): Grid {
  const bars = grid.bars.slice(0, count);
  const { firstSlot, slots } = bars[bars.length - 1];
  return { ...grid, bars, slots: grid.slots.slice(0, firstSlot + slots) };
}

/**
 * Strokes that are echo-like (`echoLike` true) or those that are not, as columns.
 * @throws InputError where times go backwards or are no number
 */
export function playedOf(strokes: readonly AlignStroke[], echoLike: boolean): Played {
  let count = 0;
  let last = -Infinity;
  for (let i = 0; i < strokes.length; i++) {
    const at = strokes[i].atMs;
    if (!(at >= last))
      throw new InputError(`strokes[${i}].atMs`, 'must be a number not before the stroke before', at);
    last = at;
    if (strokes[i].echoLike === echoLike) count++;
  }
  const played = {
    count,
    at: new Float64Array(count),
    level: new Float64Array(count),
    hand: new Int8Array(count),
    index: new Int32Array(count),
  };
  let next = 0;
  for (let i = 0; i < strokes.length; i++) {
    const stroke = strokes[i];
    if (stroke.echoLike !== echoLike) continue;
    played.at[next] = stroke.atMs;
    played.level[next] = stroke.levelDb;
    played.hand[next] = handSign(stroke.hand);
    played.index[next] = i;
    next++;
  }
  return played;
}

export function handSign(hand: 'R' | 'L' | null): HandSign {
  if (hand === null) return 0;
  return hand === 'R' ? 1 : -1;
}

/**
 * Signed distance of each stroke, offset off, from its nearest slot, in units of that slot's gap, into `into`.
 * Half-way between two slots the earlier is the nearest. Negative is early. Linear: one walk along both.
 * @param slotOf gets those slots
 */
export function nearestDeviations(
  targets: Targets,
  at: Float64Array,
  count: number,
  offsetMs: number,
  into: Float64Array,
  slotOf?: Int32Array,
): void {
  let slot = 0;
  for (let i = 0; i < count; i++) {
    const time = at[i] - offsetMs;
    while (slot + 1 < targets.count && targets.at[slot + 1] - time < time - targets.at[slot]) slot++;
    into[i] = (time - targets.at[slot]) / targets.gap[slot];
    if (slotOf !== undefined) slotOf[i] = slot;
  }
}

function usable(gapMs: number): number {
  return gapMs > 0 && Number.isFinite(gapMs) ? gapMs : LONE_GAP_MS;
}
