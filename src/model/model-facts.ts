import type { Grid, Slot } from '../exercises/types';

/** What a slot's stroke lies beside, round the cycle. Written apart from the grading's own, so that one checks the other. */
export interface Beside {
  readonly ownBefore: boolean;
  readonly ownAfter: boolean;
  readonly otherBeside: boolean;
  readonly second: boolean;
  readonly seam: boolean;
}

export function factsOf(grid: Grid): Beside[] {
  const { slots, slotsPerCycle: n } = grid;
  const at = (index: number): Slot => slots[((index % n) + n) % n];
  const accentOf = (index: number, step: number): boolean => {
    let other = index + step;
    while (at(other).hand !== at(index).hand) other += step;
    return at(other).kind === 'accent';
  };
  /** Slots at the time before or after a slot's own. */
  const beside = (index: number, step: 1 | -1): Slot[] => {
    let other = index + step;
    while (at(other).atMs === at(index).atMs && at(other) !== at(index)) other += step;
    return [at(other - 1), at(other), at(other + 1)].filter((one) => one.atMs === at(other).atMs);
  };
  const cycle = Array.from({ length: Math.min(n, slots.length) }, (_, index): Beside => {
    const [here, before] = [at(index), at(index - 1)];
    const spilt = (one: Slot): boolean => one.kind === 'accent' && one.hand !== here.hand;
    const isDouble =
      here.together + before.together === 2 &&
      before.hand === here.hand &&
      ![...beside(index - 1, -1), ...beside(index, 1)].some((one) => one.hand === here.hand) &&
      before.bar === here.bar;
    return {
      ownBefore: accentOf(index, -1),
      ownAfter: accentOf(index, 1),
      otherBeside: [...beside(index, -1), ...beside(index, 1)].some(spilt),
      second: isDouble && before.kind === here.kind,
      seam: here.slot === 0 && before.variation !== here.variation,
    };
  });
  return slots.map((slot) => cycle[slot.index % n]);
}

/** Second note of any double: two neighbours of one hand in one bar, no unison among them. */
export function secondOfAnyDouble({ slots }: Grid, { index, hand, bar, together }: Slot): boolean {
  const before = slots[index - 1];
  return (
    index > 0 &&
    together + before.together === 2 &&
    before.hand === hand &&
    before.bar === bar &&
    slots[index - 2]?.hand !== hand
  );
}
