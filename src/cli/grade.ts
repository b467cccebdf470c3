import { parseArgs } from 'node:util';
import { feetWords } from '../grading/feet-words';
import type { JudgedKey, Report, VariationReport } from '../grading/types';
import { bandWords, figureWords, measureName, strengthWords } from '../grading/words';
import { gradeTake } from '../practice/grade-take';
import { foreignOf, foreignOptions, takeOf } from './foreign';
import { onBehalfOf, UsageError } from './io';

/** Columns of the table a variation, where a take has them. */
const columns: readonly JudgedKey[] = [
  'contrast',
  'softness',
  'balanceSoft',
  'leakBefore',
  'leakAfter',
  'spill',
  'fade',
  'lag',
  'scatter',
  'seam',
  'flamEvenness',
  'flamGap',
  'graceSoftness',
];

/**
 * `grade FILE… [--json]`, with what `foreign.ts` takes for MIDI files that don't carry their phrase: the sentence and a table a variation, or the report itself.
 */
export function grade(args: readonly string[]): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { json: { type: 'boolean', default: false }, ...foreignOptions },
    allowPositionals: true,
  });
  if (positionals.length === 0) throw new UsageError('grade wants a take file');
  const foreign = foreignOf(values);
  const reports = positionals.map((file) => {
    const take = takeOf(file, foreign);
    return onBehalfOf(file, () => gradeTake(take));
  });
  if (values.json) return `${JSON.stringify(reports.length === 1 ? reports[0] : reports, undefined, 2)}\n`;
  return reports
    .map((report, index) => (reports.length > 1 ? `${positionals[index]}\n` : '') + shown(report))
    .join('\n');
}

function shown(report: Report): string {
  const lines = [report.sentence, strengthWords(report), ''];
  if (report.fits) lines.push(...tableOf(report), '');
  const { slots, matched, missed, extra, slipped, wrongHand } = report.counts;
  const counts = [`${matched} of ${slots} slots matched`, `${missed} missed`, `${extra} extra`];
  if (slipped > 0) counts.push(`${slipped} slipped`);
  if (wrongHand > 0) counts.push(`${wrongHand} with the wrong hand`);
  const { gracesMissed = 0, wrongSurface = 0 } = report.counts;
  if (wrongSurface > 0) counts.push(`${wrongSurface} on another drum`);
  if (gracesMissed > 0) counts.push(`${gracesMissed} grace notes left out`);
  if (report.feet !== undefined) lines.push(feetWords(report.feet), '');
  lines.push(`${counts.join(', ')}; offset ${report.offsetMs.toFixed(1)} ms.`);
  return `${lines.join('\n')}\n`;
}

function tableOf(report: Report): string[] {
  const present = columns.filter((key) =>
    report.variations.some(({ measures }) => measures[key] !== undefined),
  );
  const head = ['variation', 'verdict', 'margin', 'because of', ...present.map(measureName)];
  const rows = report.variations.map((variation) => [
    variation.name,
    bandWords(variation.band),
    variation.supported === null ? '' : variation.supported.toFixed(2),
    variation.measure === undefined || variation.band === 'holds' ? '' : measureName(variation.measure),
    ...present.map((key) => cell(variation, key)),
  ]);
  const widths = head.map((name, column) => Math.max(name.length, ...rows.map((row) => row[column].length)));
  return [head, ...rows].map((row) =>
    row
      .map((text, column) => text.padEnd(widths[column]))
      .join('  ')
      .trimEnd(),
  );
}

function cell({ measures }: VariationReport, key: JudgedKey): string {
  const figure = measures[key];
  return figure === undefined ? '' : figureWords(key, figure);
}
