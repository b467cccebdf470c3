import type { Evidence } from '../evidence/evidence';
import type { Part } from '../figures/figure';
import type { GroupName } from './group-words';
import { measures, type MeasureKey } from '../measures';
import type { StrokeGroup } from '../measures/measure';
import { fact } from './phrase-facts';
import { slotTerms, type Counting, type SlotTerm } from './slot-facts';
import type { Measures, Report, SlotReport } from '../types';

/**
 * As what a slot counts for a figure.
 * @returns undefined where it doesn't
 */
export function countedAs(
  { counting }: Pick<Report, 'counting'>,
  { counts }: Pick<SlotReport, 'counts'>,
  key: MeasureKey,
  part: Part | null = null,
): GroupName | undefined {
  return counts === undefined ? undefined : counting[counts]?.[nameOf(key, part)];
}

/** True where the stroke is the player's: there, by the hand and on the drum that were due. */
export function isAsDue({ status, wrongHand, wrongSurface }: SlotReport): boolean {
  return status === 'matched' && wrongHand !== true && wrongSurface !== true;
}

/** Those strokes of the take, or of one of its variations. */
export function slotsAsDue(
  { slots, bars }: Pick<Report, 'slots' | 'bars'>,
  variation: string | null,
): SlotReport[] {
  return slots.filter(
    (slot) => isAsDue(slot) && (variation === null || bars[slot.bar]?.variation === variation),
  );
}

const nameOf = (key: MeasureKey, part: Part | null): string => (part === null ? key : `${key}.${part}`);

/** One list for each set of terms, however many slots carry it. */
const termLists = Array.from({ length: 1 << slotTerms.length }, (_, bits) =>
  slotTerms.filter((term) => (bits & fact[term]) !== 0),
);

/** What the phrase says of a slot, from its bits. */
export function termsOf(bits: number): readonly SlotTerm[] {
  return termLists[bits];
}

/** More groups than any figure has. */
const GROUPS = 8;

/**
 * The ways in which slots count, and for each slot its place among them, −1 where it counts for nothing. Figure after
 * figure the slots that counted alike so far are told apart by the group they are of.
 * @param of the measures of the take and of its variations: strokes count for those that there are
 */
export function countedSlots(
  evidence: Evidence,
  of: readonly Measures[],
): { readonly counting: readonly Counting[]; readonly counts: Int32Array } {
  const n = evidence.kind.length;
  const counted = new Int32Array(n);
  let countings: readonly Counting[] = [{}];
  for (const { key, figures } of measures) {
    if (of.every((has) => has[key] === undefined)) continue;
    for (const { part, groups } of figures) {
      const found = groups(evidence);
      const next = new Int32Array(countings.length * GROUPS).fill(-1);
      const split: Counting[] = [];
      // what counts for nothing stays first
      next[0] = split.push({}) - 1;
      for (let i = 0; i < n; i++) {
        const group = groupOf(found, i);
        const code = counted[i] * GROUPS + group;
        if (next[code] < 0) {
          const before = countings[counted[i]];
          const more = group === 0 ? before : { ...before, [nameOf(key, part)]: found[group - 1].name };
          next[code] = split.push(more) - 1;
        }
        counted[i] = next[code];
      }
      countings = split;
    }
  }
  return { counting: countings.slice(1), counts: counted.map((one) => one - 1) };
}

/** 1 for the first group that has the slot, 0 for none. */
function groupOf(groups: readonly StrokeGroup[], i: number): number {
  for (let group = 0; group < groups.length; group++) if (groups[group].has(i)) return group + 1;
  return 0;
}
