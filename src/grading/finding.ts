import type { Hand } from '../stroke';
import type { Reason } from './remedy/table';
import type { Figure, Report } from './types';
import { figureOf, weakestFirst, worstOfTake } from './weakest';

/** What a report says is out: a reason, where, and the figure behind it. */
export interface Finding {
  readonly reason: Reason;
  /** Where it is out; null where the whole phrase has it, or only the whole take shows it. */
  readonly variation: string | null;
  /** The bar to work on: the variation's own, else the weakest variation's. */
  readonly bar: string;
  /** True where the whole phrase is to be worked on, not one bar of it. */
  readonly isWhole: boolean;
  readonly hand?: Hand;
  /** Null for a slip. */
  readonly figure: Figure | null;
}

/**
 * The first thing that is out, in the order of the report's sentence: a slip, the weakest variation or, where the others
 * have its fault too, the phrase, the whole take.
 * @returns undefined where the take doesn't fit its grid, where too little was played, and where all holds
 */
export function findingOf(report: Report): Finding | undefined {
  if (!report.fits) return undefined;
  const standings = weakestFirst(report.variations);
  const [slip] = report.slips;
  if (slip !== undefined) {
    const { variation } = report.bars[slip.bar];
    return { reason: 'slip', variation, bar: variation, isWhole: false, figure: null };
  }
  if (standings.length === 0) return undefined;
  const [{ key, figure, supported, variation }] = standings;
  const bar = variation.name;
  const isSingle = report.variations.length === 1;
  if (supported < 0) {
    const scope = report.weakest?.scope ?? 'variation';
    const isWhole = !isSingle && scope !== 'variation' && scope !== 'variations';
    if (!isWhole) return { reason: key, variation: bar, bar, isWhole, ...handOf(figure), figure };
    const over = figureOf(report.measures, key);
    const isOut = typeof over?.supported === 'number' && over.supported < 0;
    const behind = isOut ? over : figure;
    return { reason: key, variation: isOut ? null : bar, bar, isWhole, ...handOf(behind), figure: behind };
  }
  const overall = worstOfTake(report, false);
  if (overall === undefined || overall.supported >= 0) return undefined;
  return {
    reason: overall.key,
    variation: null,
    bar,
    isWhole: !isSingle,
    ...handOf(overall.figure),
    figure: overall.figure,
  };
}

function handOf({ hand }: Figure): { hand?: Hand } {
  return hand === undefined ? {} : { hand };
}
