import type { Db, Ms } from '../../units';
import type { GroupName } from './group-words';

/** What the phrase says of a soft stroke, and `double`: the second note of two of one hand, of any kinds. */
export const slotTerms = ['before', 'after', 'spill', 'second', 'double'] as const;
export type SlotTerm = (typeof slotTerms)[number];

/** A way in which slots count: as what, by the name of the figure, a measure's key or `seam.ms` where it has two. */
export type Counting = Readonly<Record<string, GroupName>>;

/** What grading decided of a slot: kept in the report, asked by all. A key that does not apply is absent. */
export interface SlotFacts {
  /** The level that it is judged at, dB: dynamics and trims taken off. Null where nothing answered. */
  readonly judgedLevel: Db | null;
  /** What the phrase says of it. Absent where nothing. */
  readonly terms?: readonly SlotTerm[];
  /** The class of surfaces within which its level is compared; absent where there is one. */
  readonly surface?: string;
  /** From each grace found to the next stroke of its group, ms. */
  readonly graceGapsMs?: readonly Ms[];
  /** For which figures it counts, and as what: its place in the report's `counting`. Absent where for none: `status` says why. */
  readonly counts?: number;
}
