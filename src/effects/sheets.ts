import { InputError } from '../errors';
import type { On } from '../state/commands';
import { gradeTake } from '../take/grade-take';
import { playerInTurn } from '../state/library';
import type { SheetShown } from '../state/sheets';
import type { KeptFile } from '../sessions/store-types';
import type { TakeSummary } from '../sessions/take-record';
import { targetsMet, type Returned } from '../sessions/week/targets-met';
import { newTarget } from '../sessions/week/new-target';
import { weekSheetFrom, writeWeekSheet, type WeekSheet } from '../sessions/week-sheet';
import type { Desk } from './page-effects';
import { fileNameOf, saveFile } from './save-file';

/** Week sheets on the student's side, and what came back on the teacher's. */
export interface SheetDesk {
  /** Those of some takes' player, newest first; one that does not read any more is left out. */
  shown(kept: readonly KeptFile[], takes: readonly TakeSummary[]): Promise<readonly SheetShown[]>;
  /** Keeps one for a player. */
  keep(sheet: WeekSheet, playerId: string): Promise<void>;
  /** Puts its phrase and tempo in Play; takes are played to it from then on. */
  open(sheet: WeekSheet): void;
}

/** The newest takes that came back are enough to say what was reached. */
const MOST_RETURNED = 12;

export function sheetDesk({ say, store }: Desk): SheetDesk {
  async function returned(sheetId: string, takes: readonly TakeSummary[]): Promise<readonly Returned[]> {
    const found: Returned[] = [];
    for (const { id } of takes.filter((take) => take.sheetId === sheetId).slice(0, MOST_RETURNED)) {
      const take = await store().get(id);
      if (take === undefined) continue;
      try {
        found.push({ take, report: gradeTake(take) });
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
      }
    }
    return found;
  }

  return {
    async shown(kept, takes) {
      const all: SheetShown[] = [];
      for (const { file } of kept) {
        const sheet = soundSheet(file);
        if (sheet === undefined) continue;
        const theirs = await returned(sheet.id, takes);
        all.push({ sheet, takes: theirs.length, outcomes: targetsMet(sheet, theirs) });
      }
      return all.sort((a, b) => (a.sheet.changedAt < b.sheet.changedAt ? 1 : -1));
    },
    async keep(sheet, playerId) {
      const { id, changedAt } = sheet;
      await store().place('sheets', { id, playerId, changedAt, file: sheet });
    },
    open(sheet) {
      const { phrase, bpm, limits } = sheet;
      say({ kind: 'today', said: { kind: 'open', opening: { kind: 'phrase', phrase, name: null, bpm } } });
      say({ kind: 'limits', limits });
      say({ kind: 'keeping', change: { sheetId: sheet.id } });
      say({ kind: 'message', message: 'Takes of this phrase are played to the week sheet.' });
    },
  };
}

function soundSheet(file: unknown): WeekSheet | undefined {
  try {
    return weekSheetFrom(file);
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}

const WEEK_DAYS = 7;

/** A day from today on, as a date of this place. */
function dayIn(days: number): string {
  const date = new Date();
  date.setDate(date.getDate() + days);
  return [date.getFullYear(), date.getMonth() + 1, date.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');
}

/** What may be asked of week sheets. */
export function sheetWires(
  on: On,
  { sitting, say, store, attempt }: Desk,
  sheets: SheetDesk,
  refresh: () => Promise<void>,
): void {
  on('open-sheet', ({ id }) => {
    const found = sitting().keeping.sheets.find(({ sheet }) => sheet.id === id);
    if (found !== undefined) sheets.open(found.sheet);
  });
  on('new-sheet', () => {
    const { phrase, bpm, limits } = sitting();
    const student = playerInTurn(sitting().keeping)?.name ?? '';
    const sheet: WeekSheet = {
      format: 'evenhand-week',
      version: 1,
      id: crypto.randomUUID(),
      student,
      phrase,
      bpm,
      limits,
      targets: [newTarget('tempo', { phrase, bpm, limits })],
      words: '',
      due: dayIn(WEEK_DAYS),
      changedAt: new Date().toISOString(),
    };
    say({ kind: 'week draft', said: { kind: 'open', sheet } });
  });
  on('edit-sheet', ({ id }) => {
    const found = sitting().keeping.sheets.find(({ sheet }) => sheet.id === id);
    if (found !== undefined) say({ kind: 'week draft', said: { kind: 'open', sheet: found.sheet } });
  });
  on('week-draft', (said) => say({ kind: 'week draft', said }));

  /** Keeps what is written, for the player in turn. */
  async function keepDraft(): Promise<WeekSheet | undefined> {
    const { draft, playerId } = sitting().keeping;
    if (draft === null) return undefined;
    const sheet = weekSheetFrom({ ...draft, changedAt: new Date().toISOString() });
    await sheets.keep(sheet, playerId);
    await refresh();
    return sheet;
  }
  on('week-keep', () =>
    attempt(async () => {
      if ((await keepDraft()) === undefined) return;
      say({ kind: 'week draft', said: { kind: 'close' } });
      say({ kind: 'message', message: 'The week sheet is kept.' });
    }),
  );
  on('week-export', () =>
    attempt(async () => {
      const sheet = await keepDraft();
      if (sheet === undefined) return;
      const who = sitting().keeping.namesInFiles && sheet.student !== '' ? `-${sheet.student}` : '';
      saveFile(`${fileNameOf(`${sheet.due ?? 'sheet'}${who}`)}.week.json`, writeWeekSheet(sheet));
    }),
  );
  on('remove-sheet', ({ id }) =>
    attempt(async () => {
      await store().remove('sheets', id);
      await refresh();
    }),
  );
}
