import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { InputError } from '../errors';
import { gradedRecord } from '../insight/graded-record';
import { termOf } from '../insight/history/term';
import { notedTogether } from '../insight/noted';
import { gradeTake } from '../take/grade-take';
import {
  noteHtml,
  noteMarkdown,
  proposedTarget,
  type NotedTake,
  type NoteText,
} from '../sessions/paper/lesson-note';
import { fileName } from '../sessions/file-name';
import { summaryOf } from '../sessions/take-record';
import { termReportHtml } from '../sessions/paper/term-report';
import type { Take } from '../sessions/types';
import { strict, type Log } from './log';
import { takeOf } from './foreign';
import { onBehalfOf } from './io';
import { playerCodes, playerKey, playersOf } from './players';
import { shownName } from './shown';
import { eachFile, takeFiles } from './take-files';
import { UsageError } from './usage';
import { writeWhole } from './whole-files';
import { counted } from '../text';

/**
 * `note FILE… --out OUT.html|.md [--student NAME] [--words TEXT] [--target TEXT] [--date DAY] [--term] [--force]`: a lesson
 * note of one player, or with `--term` a page for parents. `--by-student`: one note each, into the folder OUT.
 * Nothing is written where any file is bad, and no note mixes players.
 */
export function note(args: readonly string[], log: Log = strict): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      out: { type: 'string' },
      student: { type: 'string', default: '' },
      words: { type: 'string', default: '' },
      target: { type: 'string' },
      date: { type: 'string' },
      term: { type: 'boolean', default: false },
      'by-student': { type: 'boolean', default: false },
      force: { type: 'boolean', default: false },
    },
    allowPositionals: true,
  });
  const { out, 'by-student': byStudent } = values;
  if (positionals.length === 0) throw new UsageError('note wants a take file');
  if (byStudent && values.student !== '') throw new UsageError('--student or --by-student, not both');
  if (out === undefined) throw new UsageError('note wants --out OUT.html or OUT.md');
  if (!byStudent && !/\.(html|md)$/i.test(out)) throw new UsageError('note wants --out OUT.html or OUT.md');
  if (values.term && /\.md$/i.test(out)) throw new UsageError('--term writes .html');

  const all = allNoted(positionals, log);
  if (all === undefined) return '';
  const noted = withoutTeachers(all, log);
  const takes = noted.map(({ take }) => take);
  const players = playersOf(takes);
  if (!byStudent) {
    if (players.length > 1) {
      const names = namesOf(takes).join(', ');
      throw new InputError(
        'takes',
        `must be of one player for one note: --by-student writes one each`,
        names,
      );
    }
    warnOfAnother(values.student, takes[0], log);
    const content = pageOf(noted, values, /\.md$/i.test(out));
    writeWhole([{ file: out, content }], values.force);
    return `${shownName(out)}: ${kindOf(values)} of ${counted(noted.length, 'take')}\n`;
  }
  const codes = playerCodes(takes);
  const notes = players.map((player) => {
    const theirs = noted.filter(({ take }) => playerKey(take) === player);
    const text = { ...values, student: theirs[0].take.player };
    const name = fileName({
      kind: values.term ? 'term' : 'note',
      who: codes.get(player) ?? '',
      day: dateOf(theirs, values.date),
      ending: 'html',
    });
    return { file: join(out, name), content: pageOf(theirs, text, false), takes: theirs.length };
  });
  madeFolder(out);
  writeWhole(notes, values.force);
  return notes
    .map(({ file, takes: n }) => `${shownName(file)}: ${kindOf(values)} of ${counted(n, 'take')}\n`)
    .join('');
}

/** Every take graded; undefined where any is bad: then nothing is written. */
function allNoted(positionals: readonly string[], log: Log): readonly NotedTake[] | undefined {
  let isBad = false;
  const noticing: Log = {
    ...log,
    bad(error) {
      isBad = true;
      log.bad(error);
    },
  };
  const noted = eachFile(takeFiles(positionals, noticing), noticing, (file): NotedTake => {
    const take = takeOf(file);
    return onBehalfOf(file, () => ({ take, report: gradeTake(take) }));
  });
  return isBad || noted.length === 0 ? undefined : noted;
}

/** A note tells of a player. */
function withoutTeachers(all: readonly NotedTake[], { warn }: Log): readonly NotedTake[] {
  const theirs = all.filter(({ take }) => take.teacher !== true);
  const left = all.length - theirs.length;
  if (theirs.length === 0) throw new InputError('takes', 'must be a player’s, not the teacher’s alone');
  if (left > 0) warn(`note: ${counted(left, 'take')} of the teacher’s left out`);
  return theirs;
}

interface NoteValues {
  readonly student: string;
  readonly words: string;
  readonly target?: string | undefined;
  readonly date?: string | undefined;
  readonly term: boolean;
}

function pageOf(noted: readonly NotedTake[], values: NoteValues, isMarkdown: boolean): string {
  if (values.term) {
    const takes = noted.map(({ take, report }) => ({
      ...summaryOf(take),
      graded: gradedRecord(take, report),
    }));
    return termReportHtml(values, termOf(takes, { fromDay: '', toDay: '' }, 0));
  }
  const text: NoteText = {
    student: values.student,
    date: dateOf(noted, values.date),
    words: values.words,
    target: values.target ?? proposedTarget(noted[noted.length - 1]),
  };
  const standing = notedTogether(noted, text.date);
  return isMarkdown ? noteMarkdown(text, standing) : noteHtml(text, standing);
}

/** The day that was said, or that of the last take. */
function dateOf(noted: readonly NotedTake[], values: string | undefined): string {
  const days = noted.map(({ take }) => take.recordedAt.slice(0, 10)).sort();
  return values ?? days[days.length - 1];
}

function warnOfAnother(student: string, { player }: Take, { warn }: Log): void {
  const values = student.trim().toLowerCase();
  if (values === '' || player.trim() === '' || values === player.trim().toLowerCase()) return;
  warn(`note: the takes are those of "${player}", and the note is for "${student}"`);
}

const kindOf = ({ term }: NoteValues): string => (term ? 'a term report' : 'a note');

const namesOf = (takes: readonly Take[]): readonly string[] => [
  ...new Set(takes.map((take) => (take.player === '' ? 'a player without a name' : take.player))),
];

function madeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new InputError(`${folder}:`, `is no folder (${error instanceof Error ? error.message : ''})`);
  }
}
