import { alikeBars } from '../grading/apart/alike';
import type { NotTold } from '../grading/apart/apartness';
import { giveawayOf, type Giveaway } from '../grading/apart/giveaway';
import { identificationOf, type Identification } from '../grading/apart/identification';
import type { BlindBar } from '../grading/apart/listen-blind';
import type { Report } from '../grading/types';
import type { Take } from '../sessions/types';

export { nextBlind } from '../grading/apart/listen-blind';

/** What tells the variations of a take apart. */
export interface Apart {
  readonly giveaway: Giveaway | NotTold;
  readonly identification: Identification | NotTold;
}

/** Both take a thousand shuffles: work for a worker, not for the page. */
export function apartOf(report: Report, { phrase, tempo }: Pick<Take, 'phrase' | 'tempo'>): Apart {
  return {
    giveaway: giveawayOf(report, phrase, tempo),
    identification: identificationOf(report, phrase, tempo),
  };
}

/**
 * Bars of a take to be told apart by ear: those of variations that are meant to sound alike, with nothing missed in them.
 * Of several groups of such variations the largest. None where no two are.
 */
export function blindBarsOf(
  report: Report,
  { phrase, tempo }: Pick<Take, 'phrase' | 'tempo'>,
): readonly BlindBar[] {
  const groups = alikeBars(report, phrase, tempo).map(({ variations }) => variations);
  const alike = groups.reduce<readonly string[]>(
    (most, next) => (next.length > most.length ? next : most),
    [],
  );
  const broken = new Set(report.slots.filter(({ status }) => status !== 'matched').map(({ bar }) => bar));
  return report.bars.flatMap(({ index, variation, role }) =>
    role === undefined && alike.includes(variation) && !broken.has(index)
      ? [{ take: 0, bar: index, answer: variation }]
      : [],
  );
}
