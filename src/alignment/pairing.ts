import type { Targets } from './targets';

/**
 * **Pairing**: which stroke answers which slot, by time alone, keeping the order of both.
 *
 * d is the deviation of a stroke from a slot, offset off, in units of the slot's gap. Wanted is the least sum of d²
 * over pairs, L²/2 for each empty slot and L²/2 for each stroke left over, no pair with |d| > L. A pair saves one of
 * each, so the same is the *largest sum of L² − d² over pairs*. On equal cost pairing wins, then the earlier slot.
 * Source: the project's own rule (a minimum-cost matching as of Needleman & Wunsch's kind).
 *
 * As L < 1 and the gap is that to the nearer neighbour, a stroke reaches two slots at most: the last one before it
 * (`before`) and the next. So three states are enough after each stroke: slot `before` still free (0), `before` the
 * last one used (1), the next one used (2). One pass, constant work a stroke, and a stroke more is one step more:
 * `align` takes all steps at once, `follow` one at a time.
 */
export interface PairingTable {
  /** Time of each stroke, in time order. */
  readonly at: Float64Array;
  /** Index of the last slot at or before the stroke (offset off), −1 before the first. */
  readonly before: Int32Array;
  /** Best sum so far in each of the three states. */
  readonly gain: Float64Array;
  /** How each state was reached: three bits a state, 4 for "paired now" plus the state before. */
  readonly back: Uint16Array;
}

export const STATES = 3;
/** Small against every cost that can be told, and larger than rounding. */
const PAIRING_WINS = 1e-9;
const PAIRED_NOW = 4;

export function pairingTable(at: Float64Array): PairingTable {
  return {
    at,
    before: new Int32Array(at.length),
    gain: new Float64Array(at.length * STATES),
    back: new Uint16Array(at.length),
  };
}

/** Row `i` of the table from row `i - 1`. */
export function pairStep(
  table: PairingTable,
  i: number,
  targets: Targets,
  offsetMs: number,
  limitGaps: number,
): void {
  const { gain } = table;
  const time = table.at[i] - offsetMs;
  const last = i > 0 ? table.before[i - 1] : -1;
  let slot = last;
  while (slot + 1 < targets.count && targets.at[slot + 1] <= time) slot++;
  table.before[i] = slot;

  // The states before, seen from this stroke's two slots.
  const p = (i - 1) * STATES;
  let free = i > 0 ? gain[p] : 0;
  let used = i > 0 ? gain[p + 1] : -Infinity;
  let nextUsed = i > 0 ? gain[p + 2] : -Infinity;
  let freeFrom = 0;
  let usedFrom = 1;
  if (slot > last) {
    if (used > free) {
      free = used;
      freeFrom = 1;
    }
    if (slot === last + 1) {
      used = nextUsed;
      usedFrom = 2;
    } else {
      if (nextUsed > free) {
        free = nextUsed;
        freeFrom = 2;
      }
      used = -Infinity;
    }
    nextUsed = -Infinity;
  }

  const here = slot >= 0 ? gainOf(targets, slot, time, limitGaps) : -Infinity;
  const next = slot + 1 < targets.count ? gainOf(targets, slot + 1, time, limitGaps) : -Infinity;
  const q = i * STATES;
  gain[q] = free;
  let back = freeFrom;
  if (free + here > used) {
    gain[q + 1] = free + here;
    back |= (PAIRED_NOW | freeFrom) << 3;
  } else {
    gain[q + 1] = used;
    back |= usedFrom << 3;
  }
  const ahead = used > free ? used : free;
  const aheadFrom = used > free ? usedFrom : freeFrom;
  if (ahead + next > nextUsed) {
    gain[q + 2] = ahead + next;
    back |= (PAIRED_NOW | aheadFrom) << 6;
  } else {
    gain[q + 2] = nextUsed;
    back |= 2 << 6;
  }
  table.back[i] = back;
}

/** The state the best way ends in after row `i`. */
export function bestState(table: PairingTable, i: number): number {
  const p = i * STATES;
  const { gain } = table;
  let best = 0;
  if (gain[p + 1] > gain[p]) best = 1;
  if (gain[p + 2] > gain[p + best]) best = 2;
  return best;
}

/** The slot stroke `i` answers on the way through `state`, or −1. */
export function slotInState(table: PairingTable, i: number, state: number): number {
  const pairedNow = ((table.back[i] >> (3 * state)) & PAIRED_NOW) !== 0;
  return pairedNow ? table.before[i] + state - 1 : -1;
}

/** The state of row `i - 1` that `state` of row `i` was reached from. */
export function stateBefore(table: PairingTable, i: number, state: number): number {
  return (table.back[i] >> (3 * state)) & 3;
}

/**
 * All strokes at once.
 * @returns for each stroke the slot it answers, or −1
 */
export function pair(
  targets: Targets,
  at: Float64Array,
  offsetMs: number,
  limitGaps: number,
  table: PairingTable = pairingTable(at),
): Int32Array {
  const slotOf = new Int32Array(at.length);
  if (at.length === 0) return slotOf;
  for (let i = 0; i < at.length; i++) pairStep(table, i, targets, offsetMs, limitGaps);
  let state = bestState(table, at.length - 1);
  for (let i = at.length - 1; i >= 0; i--) {
    slotOf[i] = slotInState(table, i, state);
    state = stateBefore(table, i, state);
  }
  return slotOf;
}

function gainOf(targets: Targets, slot: number, time: number, limitGaps: number): number {
  const d = (time - targets.at[slot]) / targets.gap[slot];
  if (d > limitGaps || d < -limitGaps) return -Infinity;
  return limitGaps * limitGaps - d * d + PAIRING_WINS;
}
