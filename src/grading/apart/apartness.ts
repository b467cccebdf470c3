import type { AlikeBars } from './alike';
import type { Report } from '../types';

/** Why variations can't be told apart from a take. */
export interface NotTold {
  readonly kind: 'not told';
  readonly because: 'does not fit' | 'none alike' | 'too few cycles';
}

export const NOT_ENOUGH: NotTold = { kind: 'not told', because: 'too few cycles' };

interface CanBeTold {
  readonly kind: 'can be told';
  readonly groups: readonly AlikeBars[];
  /** Of the group with the fewest. */
  readonly cycles: number;
  readonly couldMiss: boolean;
}

/** Under 4 cycles nothing is said; under 8 it is added that something may be missed. Source: grading.md section 6. */
const FEWEST_CYCLES = 4;
const ENOUGH_CYCLES = 8;

/** Groups of which enough was played. */
export function apartnessOf(report: Report, groups: readonly AlikeBars[]): NotTold | CanBeTold {
  if (!report.fits) return { kind: 'not told', because: 'does not fit' };
  if (groups.length === 0) return { kind: 'not told', because: 'none alike' };
  const enough = groups.filter((group) => cyclesOf(group) >= FEWEST_CYCLES);
  if (enough.length === 0) return NOT_ENOUGH;
  const cycles = Math.min(...enough.map(cyclesOf));
  return { kind: 'can be told', groups: enough, cycles, couldMiss: cycles < ENOUGH_CYCLES };
}

/** Cycles in which each of its variations was played. */
function cyclesOf({ variations, labels, cycles }: AlikeBars): number {
  const seen = variations.map(() => new Set<number>());
  labels.forEach((label, bar) => seen[label].add(cycles[bar]));
  return Math.min(...seen.map((of) => of.size));
}
