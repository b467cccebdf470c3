import { isFault } from '../grading/verdict';
import { parseArgs } from 'node:util';
import { feetWords } from '../grading/feet-words';
import { columnsOn } from '../grading/measure-columns';
import type { JudgedKey, Report, VariationReport } from '../grading/types';
import { bandWords, figureWords, measureName, strengthWords } from '../grading/words';
import { gradeTake } from '../take/grade-take';
import { asSwung } from '../take/meant-swing';
import { courseOf } from '../insight/take-course';
import {
  adviceLines,
  adviceOf,
  ceilingLines,
  ceilingsOver,
  type GradedFile,
  type PhraseCeilings,
} from './advice';
import { strict, type Log } from './log';
import { foreignOf, foreignOptions, takeOf } from './foreign';
import { groupedTakes, type Group } from './grouped';
import { onBehalfOf } from './io';
import type { Decimal } from './sheet';
import { shownName } from './shown';
import { strokesCsv } from './strokes-csv';
import { summaryCsv, summaryLines } from './summary';
import { eachFile, takeFiles } from './take-files';
import { UsageError } from './usage';

/** Columns of the table a variation, where a take has them. */
const columns = columnsOn('terminal');

/**
 * `grade FILE… [--json [--advice]]`, with what `foreign.ts` takes for MIDI files that don't carry their phrase: the
 * sentence, a table a variation, what to play next and what gives a variation away; over several files by player and
 * phrase, with the ceilings. A file that is bad is told on standard error, and the others are graded.
 * `--json`: the report of one file, or an array of several, in their order. `--json --advice`: an object with `reports`,
 * and beside them `advice` (`file`, `remedy`, `giveaway`, `identification`; in the files' order) and `ceilings`
 * (`player`, `phrase`, `files`, `ceiling`, `change`, `weakest`, `days`, `before`, `variations`).
 * `--swung`: of a player who meant to swing, graded by the swing that was played.
 * `--summary`: one line a take. `--csv`: the same, `--csv strokes`: every stroke, for a spreadsheet.
 */
export function grade(args: readonly string[], log: Log = strict): string {
  const { values, positionals } = parseArgs({
    args: csvArgs(args),
    options: {
      json: { type: 'boolean', default: false },
      advice: { type: 'boolean', default: false },
      swung: { type: 'boolean', default: false },
      summary: { type: 'boolean', default: false },
      csv: { type: 'string' },
      decimal: { type: 'string' },
      ...foreignOptions,
    },
    allowPositionals: true,
  });
  if (positionals.length === 0) throw new UsageError('grade wants a take file');
  if (values.advice && !values.json)
    throw new UsageError('--advice goes with --json; without it advice is printed anyway');
  const form = formOf(values);
  const foreign = foreignOf(values);
  const files = takeFiles(positionals, log);
  const graded = eachFile(files, log, (file): GradedFile => {
    const take = takeOf(file, foreign);
    const report = onBehalfOf(file, () => gradeTake(take));
    const swung = values.swung ? asSwung(take, report) : undefined;
    return swung === undefined
      ? { file, take, report }
      : { file, take: swung, report: onBehalfOf(file, () => gradeTake(swung)) };
  });
  if (graded.length === 0) return '';
  const reports = graded.map(({ report }) => report);
  const several = files.length > 1;
  if (values.json && !values.advice) return asJson(several ? reports : reports[0]);
  if (values.json) {
    const ceilings = ceilingsOver(graded);
    return asJson({ reports, advice: graded.map((one) => adviceOf(one, ceilings)), ceilings });
  }
  const groups = groupedTakes(graded);
  if (form.csv === 'takes') return summaryCsv(groups, form.decimal);
  if (form.csv === 'strokes') return strokesCsv(groups, form.decimal);
  if (values.summary) return `${summaryLines(groups).join('\n')}\n`;
  return several
    ? severalShown(groups, ceilingsOver(graded))
    : shown(graded[0].report, moreLines(graded[0], []));
}

/** By player and phrase, each file under its name; then the ceilings. */
function severalShown(groups: readonly Group<GradedFile>[], ceilings: readonly PhraseCeilings[]): string {
  const pages = groups.flatMap(({ player, phrase, takes }) => {
    const heading = groups.length === 1 ? '' : `${shownName(headingOf(player, phrase))}\n\n`;
    return takes.map(
      (one, index) =>
        `${index === 0 ? heading : ''}${shownName(one.file)}\n${shown(one.report, moreLines(one, ceilings))}`,
    );
  });
  return [...pages, ceilingLines(ceilings, new Date().toISOString()).map(shownName).join('\n')].join('\n');
}

const headingOf = (player: string, phrase: string): string =>
  player === '' ? phrase : `${player} · ${phrase}`;

const moreLines = (one: GradedFile, ceilings: readonly PhraseCeilings[]): readonly string[] => [
  ...courseLines(one),
  ...adviceLines(one, ceilings),
];

/** `--csv` may stand alone: it means takes then. */
function csvArgs(args: readonly string[]): string[] {
  return args.flatMap((arg, index) => {
    if (arg === '--csv') return [args[index + 1] === 'strokes' ? '--csv=strokes' : '--csv=takes'];
    return arg === 'strokes' && args[index - 1] === '--csv' ? [] : [arg];
  });
}

interface Form {
  readonly csv?: 'takes' | 'strokes';
  readonly decimal: Decimal;
}

interface FormValues {
  readonly json: boolean;
  readonly summary: boolean;
  readonly csv?: string | undefined;
  readonly decimal?: string | undefined;
}

function formOf({ json, summary, csv, decimal }: FormValues): Form {
  if ([json, summary, csv !== undefined].filter(Boolean).length > 1)
    throw new UsageError('--json, --summary or --csv, one of them');
  if (csv !== undefined && csv !== 'takes' && csv !== 'strokes')
    throw new UsageError('--csv is of takes, or: --csv strokes');
  if (decimal !== undefined && csv === undefined) throw new UsageError('--decimal goes with --csv');
  if (decimal !== undefined && decimal !== 'comma' && decimal !== 'point')
    throw new UsageError('--decimal is comma or point');
  return { decimal: decimal ?? 'point', ...(csv === undefined ? {} : { csv }) };
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
  const { slots, matched, missed, extra, slipped, otherBar, notPlayed, doubles, wrongHand } = report.counts;
  const counts = [`${matched} of ${slots} slots matched`, `${missed} missed`, `${extra} extra`];
  if (slipped > 0) counts.push(`${slipped} slipped`);
  if (otherBar > 0) counts.push(`${otherBar} in a bar played as another`);
  if (notPlayed > 0) counts.push(`${notPlayed} not played`);
  if (doubles > 0) counts.push(`${doubles} came twice`);
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
    variation.measure === undefined || !isFault(variation.band) ? '' : measureName(variation.measure),
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
