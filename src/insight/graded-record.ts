import { measureOrder, type JudgedKey, type Report } from '../grading/types';
import { figureOf, weakestFirst } from '../grading/weakest';
import { GRADED_VERSION, type Graded, type KeptFigure } from '../sessions/take-record';
import type { Take } from '../sessions/types';
import { barsTried } from '../sessions/take-bars';

/**
 * What History keeps of a report: its weakest margin, the figures with their intervals, and bars clean by variation and
 * tempo. A take that does not fit its grid has none: null.
 */
export function gradedRecord(take: Take, report: Report): Graded | null {
  if (!report.fits) return null;
  const [weakest] = weakestFirst(report.variations);
  return {
    version: GRADED_VERSION,
    weakest:
      weakest === undefined
        ? null
        : { variation: weakest.variation.name, measure: weakest.key, margin: weakest.supported },
    measures: figuresOf(report),
    bars: barsTried(report, take.phrase, take.tempo),
  };
}

function figuresOf({ measures }: Report): Graded['measures'] {
  const kept: Partial<Record<JudgedKey, KeptFigure>> = {};
  for (const key of measureOrder) {
    const figure = figureOf(measures, key);
    if (typeof figure?.value === 'number') kept[key] = { value: figure.value, interval: figure.interval };
  }
  return kept;
}
