import type { Hand } from '../stroke';
import { worstFigureOf } from './figures/named-figures';
import type { Reason } from './remedy/table';
import type { Figure, Part } from './figures/figure';
import type { Report, Weakest } from './types';
import { isOut, measuresOver, weakestFirst, worstOfTake } from './weakest';

/** What a report says is out: a reason, where, and the figure behind it. */
export interface Finding {
  readonly reason: Reason;
  /** Of a measure with two figures the one that is out. */
  readonly part: Part | null;
  /** The variation whose figure it is; null where the whole phrase has it, or only the whole take shows it. */
  readonly variation: string | null;
  /** The bar to work on: the variation's own, else the weakest variation's. */
  readonly bar: string;
  /** Variations that have it, and are to be worked on; empty for the whole phrase. */
  readonly variations: readonly string[];
  readonly hand?: Hand;
  /** Null for a slip. */
  readonly figure: Figure | null;
}

/**
 * The first thing that is out, in the order of the report's sentence: a slip, the weakest variation or, where the others
 * have its fault too, the phrase, the whole take.
 * @param first what was chosen to come first instead, one of the report's own
 * @returns undefined where the take doesn't fit its grid, where too little was played, and where all holds
 */
export function findingOf(report: Report, first?: Weakest): Finding | undefined {
  if (!report.fits) return undefined;
  if (first !== undefined) return blamed(report, first);
  const standings = weakestFirst(report.variations);
  const [slip] = report.slips;
  if (slip !== undefined) {
    const { variation } = report.bars[slip.bar];
    return {
      reason: 'slip',
      part: null,
      variation,
      bar: variation,
      variations: [variation],
      figure: null,
    };
  }
  if (standings.length === 0 || report.weakest === null) return undefined;
  if (standings[0].supported < 0) return blamed(report, report.weakest);
  const overall = worstOfTake(report, false);
  if (overall === undefined || overall.supported >= 0) return undefined;
  const { key, part, figure } = overall;
  return {
    reason: key,
    part,
    variation: null,
    bar: report.weakest.variation,
    variations: [],
    ...handOf(figure),
    figure,
  };
}

/** By where the fault lives: the variation's own figure, or the take's where the whole phrase has it and it is out there. */
function blamed(
  report: Report,
  { measure, variation, variations, scope, hand }: Weakest,
): Finding | undefined {
  const own = worstFigureOf(
    report.variations.find(({ name }) => name === variation)?.measures ?? {},
    measure,
  );
  const isWhole = scope !== 'variation' && scope !== 'variations';
  const over = isWhole ? worstFigureOf(measuresOver(report, measure, hand), measure) : undefined;
  const found = over !== undefined && isOut(over.figure) ? over : own;
  if (found === undefined) return undefined;
  const { part, figure } = found;
  return {
    reason: measure,
    part,
    variation: figure === own?.figure ? variation : null,
    bar: variation,
    variations: isWhole && report.variations.length > 1 ? [] : variations,
    ...handOf(figure),
    figure,
  };
}

function handOf({ hand }: Figure): { hand?: Hand } {
  return hand === undefined ? {} : { hand };
}
