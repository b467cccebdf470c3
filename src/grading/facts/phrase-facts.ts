import type { Grid, Slot } from '../../exercises/types';

/**
 * What the phrase itself says of every slot of one cycle: facts of what is due, not of what was played. Neighbours and
 * a hand's own strokes are taken round the cycle, also at both ends of the take and across rests.
 */
interface PhraseFacts {
  /** Slots in the cycle; slot `i` of the grid has the facts at `i % slots`. */
  readonly slots: number;
  /** Bits of {@link fact}, one entry a slot of the cycle. */
  readonly bits: Uint8Array;
}

export const fact = {
  /** A soft stroke whose hand accented with its stroke before. */
  after: 1,
  /** A soft stroke whose hand accents with its next stroke. */
  before: 2,
  /** A soft stroke beside an accent of the other hand. */
  spill: 4,
  /** Second note of a double whose notes are of one soft kind. */
  second: 8,
  /** Second note of any double: exactly two neighbouring slots of one hand in one bar, no rest between. */
  double: 16,
} as const;

/** Facts that are a term of the soft-stroke model. */
export type CarriedTerm = 'before' | 'after' | 'spill' | 'second';
export const carriedTerms: readonly CarriedTerm[] = ['before', 'after', 'spill', 'second'];

/**
 * Facts of one cycle, from its slots. A take that ends within its first cycle is taken round what there is.
 * @example of `Rlrr Lrll` slot 2 (r) is after its own accent, and slot 3 (r) is the second note of a double
 */
export function phraseFacts(grid: Grid): PhraseFacts {
  const cycle = grid.slots.slice(0, Math.min(grid.slotsPerCycle, grid.slots.length));
  const bits = new Uint8Array(cycle.length);
  const previousOfHand = round(cycle, 1);
  const nextOfHand = round(cycle, -1);
  cycle.forEach((slot, i) => {
    const before = beside(cycle, i, -1);
    const after = beside(cycle, i, 1);
    if (isDouble(cycle, i)) {
      bits[i] |= fact.double;
      if (slot.kind !== 'accent' && before[0].kind === slot.kind) bits[i] |= fact.second;
    }
    if (slot.kind === 'accent') return;
    if (previousOfHand[i].kind === 'accent') bits[i] |= fact.after;
    if (nextOfHand[i].kind === 'accent') bits[i] |= fact.before;
    if ([...before, ...after].some((one) => isAccentOfOther(one, slot))) bits[i] |= fact.spill;
  });
  return { slots: cycle.length, bits };
}

function at(cycle: readonly Slot[], index: number): Slot {
  return cycle[(index + 4 * cycle.length) % cycle.length];
}

/** For each slot the same hand's slot before (`step` 1) or after (`step` -1) it, round the cycle. */
function round(cycle: readonly Slot[], step: 1 | -1): Slot[] {
  const found: Slot[] = [...cycle];
  const last: { R?: Slot; L?: Slot } = {};
  const n = cycle.length;
  for (let turn = 0; turn < 2 * n; turn++) {
    const i = step === 1 ? turn % n : n - 1 - (turn % n);
    const slot = cycle[i];
    found[i] = last[slot.hand] ?? slot;
    last[slot.hand] = slot;
  }
  return found;
}

function isAccentOfOther(neighbour: Slot, slot: Slot): boolean {
  return neighbour.kind === 'accent' && neighbour.hand !== slot.hand;
}

/** The slots at the time before (`step` -1) or after a slot's own, round the cycle: one, or the two of a unison. */
function beside(cycle: readonly Slot[], i: number, step: 1 | -1): readonly Slot[] {
  const { together, partial, barInCycle } = cycle[i];
  const next = at(cycle, i + step);
  const isPartner = together === 2 && next.partial === partial && next.barInCycle === barInCycle;
  const first = isPartner ? at(cycle, i + 2 * step) : next;
  if (first.together === 1) return [first];
  return [first, at(cycle, i + (isPartner ? 3 : 2) * step)];
}

/** Exactly two neighbouring slots of one hand, no unison among them, the second of them slot `i`. */
function isDouble(cycle: readonly Slot[], i: number): boolean {
  const [second, first] = [cycle[i], at(cycle, i - 1)];
  if (
    first.hand !== second.hand ||
    first.barInCycle !== second.barInCycle ||
    second.partial - first.partial !== 1 ||
    first.together + second.together !== 2
  ) {
    return false;
  }
  const around = [...beside(cycle, (i - 1 + cycle.length) % cycle.length, -1), ...beside(cycle, i, 1)];
  return around.every((slot) => slot.hand !== second.hand);
}
