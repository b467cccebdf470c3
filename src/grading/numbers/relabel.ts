import type { Random } from '../../exercises/seeded';

/**
 * Labels drawn anew within blocks (Fisher–Yates): what a permutation test asks, where blocks may differ among
 * themselves, as the cycles of a take do.
 * @param blocks by item: its block
 */
export function relabelled(labels: Uint16Array, blocks: Uint16Array, random: Random): Uint16Array {
  const drawn = labels.slice();
  for (const members of membersOf(blocks)) {
    for (let last = members.length - 1; last > 0; last--) {
      const chosen = Math.floor(random() * (last + 1));
      const [a, b] = [members[last], members[chosen]];
      const kept = drawn[a];
      drawn[a] = drawn[b];
      drawn[b] = kept;
    }
  }
  return drawn;
}

/** Items of each block. */
export function membersOf(blocks: Uint16Array): number[][] {
  const members: number[][] = [];
  blocks.forEach((block, item) => {
    (members[block] ??= []).push(item);
  });
  return members.filter((of) => of.length > 0);
}

/**
 * p of an observed figure among those of shuffled labels, itself counted: (1 + as large) / (1 + shuffles).
 * Source: Phipson & Smyth 2010.
 * @example shuffledP(3, [1, 2, 3, 4]) // => 0.6
 */
export function shuffledP(observed: number, shuffled: readonly number[]): number {
  return (1 + shuffled.filter((one) => one >= observed).length) / (1 + shuffled.length);
}
