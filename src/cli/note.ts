import { parseArgs } from 'node:util';
import { gradedRecord } from '../insight/graded-record';
import { gradeTake } from '../take/grade-take';
import {
  noteHtml,
  noteMarkdown,
  proposedTarget,
  type NotedTake,
  type NoteText,
} from '../sessions/paper/lesson-note';
import { summaryOf } from '../sessions/take-record';
import { termReportHtml, termTakeOf } from '../sessions/paper/term-report';
import { takeOf } from './foreign';
import { onBehalfOf } from './io';
import { shownName } from './shown';
import { UsageError } from './usage';
import { writeWhole } from './whole-files';

/**
 * `note FILE… --out OUT.html|.md [--student NAME] [--words TEXT] [--target TEXT] [--date DAY] [--term] [--force]`: a lesson
 * note, or with `--term` a page for parents.
 */
export function note(args: readonly string[]): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      out: { type: 'string' },
      student: { type: 'string', default: '' },
      words: { type: 'string', default: '' },
      target: { type: 'string' },
      date: { type: 'string' },
      term: { type: 'boolean', default: false },
      force: { type: 'boolean', default: false },
    },
    allowPositionals: true,
  });
  const { out } = values;
  if (positionals.length === 0) throw new UsageError('note wants a take file');
  if (out === undefined || !/\.(html|md)$/i.test(out))
    throw new UsageError('note wants --out OUT.html or OUT.md');
  const noted = positionals.map((file): NotedTake => {
    const take = takeOf(file);
    return onBehalfOf(file, () => ({ take, report: gradeTake(take) }));
  });
  const takes = `${noted.length} ${noted.length === 1 ? 'take' : 'takes'}`;
  if (values.term) {
    if (/\.md$/i.test(out)) throw new UsageError('--term writes .html');
    const content = termReportHtml(
      values,
      noted.map(({ take, report }) => termTakeOf({ ...summaryOf(take), graded: gradedRecord(take, report) })),
    );
    writeWhole([{ file: out, content }], values.force);
    return `${shownName(out)}: a term report of ${takes}\n`;
  }
  const days = noted.map(({ take }) => take.recordedAt.slice(0, 10)).sort();
  const text: NoteText = {
    student: values.student,
    date: values.date ?? days[days.length - 1],
    words: values.words,
    target: values.target ?? proposedTarget(noted[noted.length - 1]),
  };
  const content = /\.md$/i.test(out) ? noteMarkdown(text, noted) : noteHtml(text, noted);
  writeWhole([{ file: out, content }], values.force);
  return `${shownName(out)}: a note of ${takes}\n`;
}
