import { draftId } from '../sessions/draft';
import { fileName } from '../sessions/file-name';
import { whoInFileName } from '../state/selectors/library';
import { InputError } from '../errors';
import type { BrowserStore, KeptFile } from '../sessions/store-types';
import { exercisesOf, isOfExercise } from '../sessions/week/exercises';
import type { TakeSummary } from '../sessions/take-record';
import { writeReturned } from '../sessions/returned-takes';
import type { Take } from '../sessions/types';
import { weekSheetFrom, writeWeekSheet, type WeekSheet } from '../sessions/week-sheet';
import { targetsMet, type Returned } from '../sessions/week/targets-met';
import type { Effects } from '../state/dispatcher';
import type { SheetShown } from '../state/library';
import { gradeTake } from '../take/grade-take';
import type { Context } from './context';
import { readableTake } from './readable';
import { saveFile } from './save-file';

/** The newest takes that came back are enough to say what was reached; of several exercises twice as many. */
const MOST_RETURNED = 12;

/** Week sheets on the student's side, and what came back on the teacher's. */
export function sheetEffects({ state, dispatch, store, attempt }: Context, refresh: () => Promise<void>) {
  async function returned(sheet: WeekSheet, takes: readonly TakeSummary[]): Promise<readonly Returned[]> {
    const most = exercisesOf(sheet).length === 1 ? MOST_RETURNED : 2 * MOST_RETURNED;
    const theirs = takes.filter(({ sheetId }) => sheetId === sheet.id).slice(0, most);
    const found = await readableOf(
      store(),
      theirs.map(({ id }) => id),
    );
    return found.flatMap(gradedOrNone);
  }

  /** Those of some takes' player, newest first; one that does not read any more is left out. */
  async function shown(
    kept: readonly KeptFile[],
    takes: readonly TakeSummary[],
  ): Promise<readonly SheetShown[]> {
    const all: SheetShown[] = [];
    for (const { file, playerId } of kept) {
      const sheet = soundSheet(file);
      if (sheet === undefined) continue;
      const theirs = await returned(sheet, takes);
      const exercises = exercisesOf(sheet).map((exercise) => {
        const its = theirs.filter(({ take }) => isOfExercise(sheet, exercise, take.phrase));
        return {
          exercise,
          takes: its.length,
          outcomes: targetsMet({ ...exercise, limits: sheet.limits }, its),
        };
      });
      all.push({ sheet, playerId, takes: theirs.length, exercises });
    }
    return all.sort((a, b) => (a.sheet.changedAt < b.sheet.changedAt ? 1 : -1));
  }

  async function keep(sheet: WeekSheet, playerId: string): Promise<void> {
    const { id, changedAt } = sheet;
    await store().place('sheets', { id, playerId, changedAt, file: sheet });
  }

  /** Keeps what is written, with whose it is: the player in turn may be another by now. */
  async function keepDraft(): Promise<WeekSheet | undefined> {
    const { draft, draftOf } = state().library;
    if (draft === null) return undefined;
    const sheet = weekSheetFrom({ ...draft, changedAt: new Date().toISOString() });
    await keep(sheet, draftOf);
    // It is kept now: nothing of it is only begun.
    await store().remove('notes', draftId({ playerId: draftOf, draft: { of: 'week sheet', sheet } }));
    await refresh();
    return sheet;
  }

  async function give(): Promise<void> {
    const { library } = state();
    const sheet = await keepDraft();
    if (sheet === undefined) return;
    const who = whoInFileName(library, library.draftOf, sheet.student);
    const day = sheet.due ?? sheet.changedAt;
    saveFile(fileName({ kind: 'sheet', who, day, ending: 'week.json' }), writeWeekSheet(sheet));
  }

  /** Everything that was played to a sheet, in one file. */
  async function sendBack(id: string): Promise<void> {
    const { library } = state();
    const ids = library.takes.filter(({ sheetId }) => sheetId === id).map((one) => one.id);
    const takes = await readableOf(store(), ids);
    const savedAt = new Date().toISOString();
    const who = whoInFileName(library, library.playerId);
    const name = fileName({ kind: 'back', who, day: savedAt, ending: 'takes.json' });
    saveFile(name, writeReturned(takes, id, savedAt));
  }

  const on = {
    'send back': ({ id }) => attempt(() => sendBack(id)),
    'keep sheet': () =>
      attempt(async () => {
        if ((await keepDraft()) !== undefined) dispatch({ kind: 'sheet kept' });
      }),
    'export sheet': () => attempt(give),
    'remove sheet': ({ id }) =>
      attempt(async () => {
        await store().remove('sheets', id);
        await refresh();
      }),
  } satisfies Effects['on'];
  return { on, shown, keep };
}

/** A take that can't be graded says nothing of what was reached. */
function gradedOrNone(take: Take): readonly Returned[] {
  try {
    return [{ take, report: gradeTake(take) }];
  } catch (error) {
    if (error instanceof InputError) return [];
    throw error;
  }
}

async function readableOf(store: BrowserStore, ids: readonly string[]): Promise<readonly Take[]> {
  const takes: Take[] = [];
  for (const id of ids) {
    const take = await readableTake(store, id);
    if (take !== undefined) takes.push(take);
  }
  return takes;
}

function soundSheet(file: unknown): WeekSheet | undefined {
  try {
    return weekSheetFrom(file);
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
