import { isFault } from '../../grading/verdict';
import type { JudgedKey, Report, VariationReport } from '../../grading/types';
import { bandWords, figureWords, measureName } from '../../grading/words';

/** A table as text: for a page and for Markdown. */
interface NoteTable {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** At most so many measures: the table is read by a student. */
const MOST_MEASURES = 4;
const ALWAYS: readonly JudgedKey[] = ['contrast', 'softness'];

/**
 * The table that matters: a row a variation with its verdict, and the measures that variations are out by: the one that leads,
 * then the most often named; then contrast and softness. Empty where the take was not graded.
 */
export function noteTable({ fits, variations, weakest, others }: Report): NoteTable {
  if (!fits) return { head: [], rows: [] };
  const reasons = variations.flatMap(({ band, measure }) =>
    isFault(band) && measure !== undefined ? [measure] : [],
  );
  const times = (key: JudgedKey): number => reasons.filter((one) => one === key).length;
  const isLed = weakest !== null && (others.includes(weakest) || times(weakest.measure) > 0);
  const lead = isLed ? [weakest.measure] : [];
  const wanted = [...lead, ...[...reasons].sort((a, b) => times(b) - times(a)), ...ALWAYS];
  const columns = [...new Set(wanted)]
    .filter((key) => variations.some(({ measures }) => measures[key] !== undefined))
    .slice(0, MOST_MEASURES);
  return {
    head: ['variation', 'verdict', ...columns.map(measureName)],
    rows: variations.map((variation) => [
      variation.name,
      bandWords(variation.band),
      ...columns.map((key) => cellOf(variation, key)),
    ]),
  };
}

function cellOf({ measures }: VariationReport, key: JudgedKey): string {
  const figure = measures[key];
  return figure === undefined ? '' : figureWords(key, figure);
}
