import type { Grid, Slot } from '../exercises/types';
import type { Rig } from '../sessions/types';
import type { Settings } from '../settings';
import type { Ms } from '../units';
import { countWhile } from '../ordered';

/**
 * Where the phrase has a slot for two surfaces at once, so that neither is the other's crosstalk: a unison on two
 * surfaces, a foot under a hand, both feet. A hit is of the slot it is nearest to.
 * @returns undefined where the phrase has nothing of the kind
 */
export function bothDueIn(
  grid: Grid,
  rig: Rig,
  settings: Settings,
  apart: (first: Slot, second: Slot) => boolean,
): ((atMs: Ms, surface: string, other: string) => boolean) | undefined {
  const hasUnisons = grid.slots.some(({ together }) => together === 2);
  if (!hasUnisons && grid.feet.length === 0) return undefined;
  const delayMs = rig.inputDelayMs + rig.outputDelayMs;
  const togetherMs = settings['crosstalk.windowMs'];
  const playedBy = new Map(rig.surfaces.map(({ id, foot }) => [id, foot ?? 'hand']));
  const feet = {
    K: grid.feet.filter(({ foot }) => foot === 'K'),
    H: grid.feet.filter(({ foot }) => foot === 'H'),
  };
  const nearestOf = (by: string, atMs: Ms): Ms | undefined =>
    nearest<{ readonly atMs: Ms }>(by === 'K' || by === 'H' ? feet[by] : grid.slots, atMs)?.atMs;

  return (hitMs, surface, other) => {
    const atMs = hitMs - delayMs;
    const [one, two] = [playedBy.get(surface) ?? 'hand', playedBy.get(other) ?? 'hand'];
    if (one === two) {
      const slot = one === 'hand' ? nearest(grid.slots, atMs) : undefined;
      if (slot === undefined || slot.together === 1) return false;
      const first = grid.slots[slot.index - 1]?.atMs === slot.atMs ? slot.index - 1 : slot.index;
      return apart(grid.slots[first], grid.slots[first + 1]);
    }
    const [mine, its] = [nearestOf(one, atMs), nearestOf(two, atMs)];
    return mine !== undefined && its !== undefined && Math.abs(mine - its) <= togetherMs;
  };
}

/** The slot nearest to a time; of two as near the earlier. */
export function nearest<Due extends { readonly atMs: Ms }>(slots: readonly Due[], atMs: Ms): Due | undefined {
  const next = countWhile(slots.length, (index) => slots[index].atMs <= atMs);
  const before = slots[next - 1];
  const after = slots[next];
  if (before === undefined || after === undefined) return before ?? after;
  return after.atMs - atMs < atMs - before.atMs ? after : before;
}
