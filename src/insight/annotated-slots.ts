import type { Report, SlotReport } from '../grading/types';
import type { Hand } from '../stroke';

/** A slot of a report with what stands around it in the phrase. */
export interface ToldSlot {
  /** Index in the report's slots. */
  readonly index: number;
  readonly slot: SlotReport;
  readonly variation: string;
  /** The same hand's stroke before, after it is an accent. */
  readonly afterAccent: boolean;
  readonly beforeAccent: boolean;
  /** A neighbouring slot is the other hand's accent. */
  readonly besideAccent: boolean;
  /** First or second note of two of one hand and one kind. */
  readonly double: 'first' | 'second' | null;
}

/** Every slot with what stands around it, round the take. */
export function toldSlots({ slots, bars }: Report): readonly ToldSlot[] {
  const before = neighbours(slots, -1);
  const after = neighbours(slots, 1);
  const at = (index: number): SlotReport => slots[(index + slots.length) % slots.length];
  return slots.map((slot, index): ToldSlot => {
    const [previous, next] = [at(index - 1), at(index + 1)];
    const same = (other: SlotReport): boolean => other.hand === slot.hand && other.kind === slot.kind;
    const accentOfOther = (other: SlotReport): boolean => other.hand !== slot.hand && other.kind === 'accent';
    return {
      index,
      slot,
      variation: bars[slot.bar]?.variation ?? '',
      afterAccent: before[index]?.kind === 'accent',
      beforeAccent: after[index]?.kind === 'accent',
      besideAccent: accentOfOther(previous) || accentOfOther(next),
      double: same(previous) ? 'second' : same(next) ? 'first' : null,
    };
  });
}

/** Strokes that count in measures: there, and with the hand that was due. */
export const isPlayed = ({ slot }: ToldSlot): boolean => slot.status === 'matched' && slot.wrongHand !== true;

/** For each slot the same hand's one before (−1) or after (+1), round the take. */
function neighbours(slots: readonly SlotReport[], step: 1 | -1): (SlotReport | undefined)[] {
  const found: (SlotReport | undefined)[] = Array.from({ length: slots.length });
  const latest: Record<Hand, SlotReport | undefined> = { R: undefined, L: undefined };
  for (let turn = 0; turn < 2 * slots.length; turn += 1) {
    const index = step === -1 ? turn % slots.length : slots.length - 1 - (turn % slots.length);
    const slot = slots[index];
    found[index] = latest[slot.hand];
    latest[slot.hand] = slot;
  }
  return found;
}
