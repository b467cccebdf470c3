import { draftFrom, draftId, keptDraft, type Begun } from '../sessions/draft';
import { givenFrom, isGivenAlready, keptGiven, type Given } from '../sessions/given';
import type { KeptFile } from '../sessions/store-types';
import { targetWords } from '../sessions/week/target-words';
import type { Take } from '../sessions/types';
import { exercisesOf } from '../sessions/week/exercises';
import type { WeekExercise, WeekSheet } from '../sessions/week-sheet';
import type { Effects } from '../state/dispatcher';
import type { Library } from '../state/library';
import type { State } from '../state/state';
import type { Context } from './context';
import { readableTake } from './readable';

/** What a player's notes say: what is begun, the newest first, and what was given. */
export function writtenIn(notes: readonly KeptFile[]): Pick<Library, 'begun' | 'given'> {
  const newestFirst = [...notes].sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1));
  return { begun: newestFirst.flatMap((one) => draftFrom(one) ?? []), given: givenFrom(notes) };
}

/**
 * What is written is kept as it is written, so that a reload loses none of it; and what was given is kept as it was then.
 * @param show opens a take in Review
 */
export function writtenEffects(
  { state, dispatch, store, attempt }: Context,
  refresh: () => Promise<void>,
  show: (take: Take) => void,
) {
  let kept: Begun | undefined;

  /** What was written last stands first. Each letter is a write of its own: they come to the store in their order. */
  function keepNewest(): void {
    const newest = state().library.begun.at(0);
    if (newest === undefined || newest === kept) return;
    kept = newest;
    attempt(() => store().place('notes', keptDraft(newest, new Date().toISOString())));
  }

  async function give(what: Given['what'], as: Given['as']): Promise<void> {
    const now = state();
    const paper = paperOf(what, now);
    if (paper === undefined) return;
    const { playerId, ...of } = paper;
    const given: Given = { ...of, what, as, at: new Date().toISOString() };
    if (isGivenAlready(givenFrom(await store().filesOf('notes', playerId)), given)) return;
    await store().place('notes', keptGiven(given, playerId, crypto.randomUUID()));
    await refresh();
  }

  async function goOn(takeId: string): Promise<void> {
    const take = await readableTake(store(), takeId);
    if (take === undefined) return;
    show(take);
    dispatch({ kind: 'write note' });
  }

  const on = {
    'change note': keepNewest,
    'use saying': keepNewest,
    'change sheet': keepNewest,
    'sheet phrase': keepNewest,
    'add target': keepNewest,
    'change target': keepNewest,
    'remove target': keepNewest,
    'exercise minutes': keepNewest,
    'exercise before': keepNewest,
    'add exercise': keepNewest,
    'remove exercise': keepNewest,
    'exercise up': keepNewest,
    'change term': keepNewest,
    'type list words': keepNewest,
    'edit sheet': ({ sheet }) => {
      const draft = state().library.begun.at(0)?.draft;
      if (draft?.of === 'week sheet' && draft.sheet === sheet) keepNewest();
    },
    'list phrase': () =>
      attempt(() =>
        store().remove(
          'notes',
          draftId({ playerId: state().library.playerId, draft: { of: 'list', words: '' } }),
        ),
      ),
    'drop draft': ({ begun }) => attempt(() => store().remove('notes', draftId(begun))),
    'go on with note': ({ takeId }) => attempt(() => goOn(takeId)),
    printed: ({ what }) => attempt(() => give(what, 'print')),
    'export note': ({ as }) => {
      if (as !== 'week') attempt(() => give('note', as === 'md' ? 'Markdown' : 'page'));
    },
    'export sheet': () => attempt(() => give('week sheet', 'file')),
    'export term': () => attempt(() => give('term report', 'page')),
  } satisfies Effects['on'];
  return { on };
}

type Paper = Pick<Given, 'student' | 'title' | 'words' | 'target'> & { readonly playerId: string };

/** The paper that is open, as it stands; undefined where none is. */
function paperOf(what: Given['what'], { note, reviewed, library, history }: State): Paper | undefined {
  switch (what) {
    case 'note': {
      if (note === null || reviewed === null) return undefined;
      const { student, words, target } = note.text;
      const { phrase, tempo } = reviewed.take;
      const bpm = 'bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm;
      return { playerId: note.playerId, student, title: `${phrase.title}, ${bpm} bpm`, words, target };
    }
    case 'week sheet':
      return library.draft === null ? undefined : sheetPaper(library.draft, library.draftOf);
    case 'term report': {
      if (history.term === null) return undefined;
      const { student, fromDay, toDay, words } = history.term;
      return { playerId: library.playerId, student, title: `${fromDay} to ${toDay}`, words, target: '' };
    }
  }
}

function sheetPaper(sheet: WeekSheet, playerId: string): Paper {
  const exercises = exercisesOf(sheet);
  const lines = (of: (one: WeekExercise) => string): string =>
    exercises
      .map(of)
      .filter((line) => line !== '')
      .join('\n');
  return {
    playerId,
    student: sheet.student,
    title: exercises.map(({ phrase, bpm }) => `${phrase.title}, ${bpm} bpm`).join('; '),
    words: lines(({ words }) => words),
    target: lines(({ targets }) => targets.map(targetWords).join('; ')),
  };
}
