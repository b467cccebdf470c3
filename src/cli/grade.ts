import { parseArgs } from 'node:util';
import { feetWords } from '../grading/feet-words';
import { columnsOn } from '../grading/measure-columns';
import type { JudgedKey, Report, VariationReport } from '../grading/types';
import { bandWords, figureWords, measureName, strengthWords } from '../grading/words';
import { gradeTake } from '../take/grade-take';
import { asSwung } from '../take/meant-swing';
import { courseOf } from '../insight/take-course';
import { adviceLines, adviceOf, ceilingLines, ceilingsOver, type GradedFile } from './advice';
import { foreignOf, foreignOptions, takeOf } from './foreign';
import { onBehalfOf } from './io';
import { shownName } from './shown';
import { UsageError } from './usage';

/** Columns of the table a variation, where a take has them. */
const columns = columnsOn('terminal');

/**
 * `grade FILE… [--json [--advice]]`, with what `foreign.ts` takes for MIDI files that don't carry their phrase: the
 * sentence, a table a variation, what to play next and what gives a variation away; over several files the ceilings.
 * `--swung`: of a player who meant to swing, graded by the swing that was played. `--json`: the report of one file, or an array of several. `--json --advice`: an object with `reports`, and beside
 * them `advice` (`file`, `remedy`, `giveaway`, `identification`; in the files' order) and `ceilings` (`phrase`,
 * `files`, `ceiling`, `variations`).
 */
export function grade(args: readonly string[]): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      json: { type: 'boolean', default: false },
      advice: { type: 'boolean', default: false },
      swung: { type: 'boolean', default: false },
      ...foreignOptions,
    },
    allowPositionals: true,
  });
  if (positionals.length === 0) throw new UsageError('grade wants a take file');
  if (values.advice && !values.json)
    throw new UsageError('--advice goes with --json; without it advice is printed anyway');
  const foreign = foreignOf(values);
  const graded = positionals.map((file): GradedFile => {
    const take = takeOf(file, foreign);
    const report = onBehalfOf(file, () => gradeTake(take));
    const swung = values.swung ? asSwung(take, report) : undefined;
    return swung === undefined
      ? { file, take, report }
      : { file, take: swung, report: onBehalfOf(file, () => gradeTake(swung)) };
  });
  const reports = graded.map(({ report }) => report);
  if (values.json && !values.advice) return asJson(reports.length === 1 ? reports[0] : reports);
  const ceilings = ceilingsOver(graded);
  if (values.json) return asJson({ reports, advice: graded.map((one) => adviceOf(one, ceilings)), ceilings });
  const several = graded.length > 1;
  const pages = graded.map(
    (one) =>
      (several ? `${shownName(one.file)}\n` : '') +
      shown(one.report, [...courseLines(one), ...adviceLines(one, several ? ceilings : [])]),
  );
  return [...pages, ...(several ? [ceilingLines(ceilings).map(shownName).join('\n')] : [])].join('\n');
}

/** Tiring, a tempo up and down again, time without a click: a line each. */
function courseLines(one: GradedFile): readonly string[] {
  const lines = courseOf(one).map(({ of, words }) => `${of}: ${words}`);
  return lines.length === 0 ? [] : ['', ...lines];
}

const asJson = (value: unknown): string => `${JSON.stringify(value, undefined, 2)}\n`;

function shown(report: Report, advice: readonly string[]): string {
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
  lines.push(`${counts.join(', ')}; ${timeWords(report)}.`, ...advice);
  return `${lines.map(shownName).join('\n')}\n`;
}

/** What is common to all its strokes: how far they lie from the click's, or that there was none. */
const timeWords = ({ offsetMs, freeTime }: Report): string =>
  freeTime === undefined ? `offset ${offsetMs.toFixed(1)} ms` : 'free time: no click, so no offset';

function tableOf(report: Report): string[] {
  const present = columns.filter((key) =>
    report.variations.some(({ measures }) => measures[key] !== undefined),
  );
  const head = ['variation', 'verdict', 'margin', 'because of', ...present.map(measureName)];
  const rows = report.variations.map((variation) => [
    shownName(variation.name),
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
