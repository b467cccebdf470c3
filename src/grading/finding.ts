import type { Hand } from '../stroke';
import type { Reason } from './remedy/table';
import { measureOrder, type Figure, type Report } from './types';
import { weakestFirst, worstOf } from './weakest';

/** What a report says is out: a reason, where, and the figure behind it. */
export interface Finding {
  readonly reason: Reason;
  /** Where it is out; null where only the whole take shows it. */
  readonly variation: string | null;
  /** The bar to work on: the variation's own, else the weakest variation's. */
  readonly bar: string;
  readonly hand?: Hand;
  /** Null for a slip. */
  readonly figure: Figure | null;
}

/**
 * The first thing that is out, in the order of the report's sentence: a slip, the weakest variation, the whole take.
 * @returns undefined where the take doesn't fit its grid, where too little was played, and where all holds
 */
export function findingOf(report: Report): Finding | undefined {
  if (!report.fits) return undefined;
  const standings = weakestFirst(report.variations);
  const [slip] = report.slips;
  if (slip !== undefined) {
    const { variation } = report.bars[slip.bar];
    return { reason: 'slip', variation, bar: variation, figure: null };
  }
  if (standings.length === 0) return undefined;
  const [{ key, figure, supported, variation }] = standings;
  if (supported < 0) {
    return { reason: key, variation: variation.name, bar: variation.name, ...handOf(figure), figure };
  }
  const overall = worstOf(report.measures, measureOrder);
  if (overall === undefined || overall.supported >= 0) return undefined;
  return {
    reason: overall.key,
    variation: null,
    bar: variation.name,
    ...handOf(overall.figure),
    figure: overall.figure,
  };
}

function handOf({ hand }: Figure): { hand?: Hand } {
  return hand === undefined ? {} : { hand };
}
