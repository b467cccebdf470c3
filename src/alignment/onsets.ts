import type { Grid } from '../exercises/types';

/** A grid with one slot a time: both notes of a unison are one onset, the first of its slots standing for it. */
export interface Onsets {
  /** Its slots are slots of the whole grid; bars, cycle and position count onsets. */
  readonly grid: Grid;
  /** For each onset the index of its first slot in the whole grid. */
  readonly firstSlot: Int32Array;
  /** False where every slot is an onset: then `grid` is the whole grid itself. */
  readonly hasUnisons: boolean;
}

/**
 * What pairing by time alone needs: slots that lie apart. A unison's onset is an accent where one of its notes is.
 */
export function onsetsOf(grid: Grid): Onsets {
  const { slots } = grid;
  const count = slots.length;
  if (!slots.some(({ together }) => together === 2)) {
    return { grid, firstSlot: Int32Array.from({ length: count }, (_, slot) => slot), hasUnisons: false };
  }
  const firsts: number[] = [];
  for (let slot = 0; slot < count; slot += slots[slot].together) firsts.push(slot);
  const onsetsBefore = new Int32Array(count + 1);
  firsts.forEach((slot) => (onsetsBefore[slot + 1] = 1));
  for (let slot = 0; slot < count; slot += 1) onsetsBefore[slot + 1] += onsetsBefore[slot];
  return {
    grid: {
      ...grid,
      slots: firsts.map((slot) => {
        const isAccent = slots[slot].together === 2 && slots[slot + 1].kind === 'accent';
        return isAccent ? { ...slots[slot], kind: 'accent' } : slots[slot];
      }),
      bars: grid.bars.map((bar) => ({
        ...bar,
        firstSlot: onsetsBefore[bar.firstSlot],
        slots: onsetsBefore[bar.firstSlot + bar.slots] - onsetsBefore[bar.firstSlot],
      })),
      slotsPerCycle: onsetsBefore[Math.min(grid.slotsPerCycle, count)],
    },
    firstSlot: Int32Array.from(firsts),
    hasUnisons: true,
  };
}
