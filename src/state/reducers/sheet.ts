import type { Phrase } from '../../exercises/types';
import { playerLabels } from '../../sessions/player-code';
import { newTarget, targetOf } from '../../sessions/week/new-target';
import { exercisesOf, MOST_EXERCISES, sheetOf, withExercises } from '../../sessions/week/exercises';
import type { WeekExercise, WeekSheet, WeekTarget } from '../../sessions/week-sheet';
import type { Ms } from '../../units';
import type { Reducers } from './reducers';
import type { Library } from '../library';
import type { State } from '../state';
import { chosen } from '../phrase-choice';
import { currentPlayer, limitsOf } from '../selectors/library';
import { ownInput, withChoice } from './chosen';
import { steadyPace } from '../pace';
import { variationsOf } from '../selectors/sheet';

/** Week sheets: one that is played to, and one that is written. */
export const sheetReducers = {
  'play sheet': (state, { sheet, exercise = 0 }) => ({
    ...atExercise(state, sheet, exercise),
    screen: 'play',
    message: 'Takes of this phrase are played to the week sheet.',
  }),
  'new sheet': (state, { id, dateMs }) => opened(state, newSheet(state, id, dateMs), state.library.playerId),
  'edit sheet': (state, { sheet, playerId }) => opened(state, begunOf(state, sheet), playerId),
  'change sheet': (state, { change }) => written(state, (sheet) => ({ ...sheet, ...change })),
  'sheet phrase': (state, { phrase }) =>
    written(state, (sheet) => ({
      ...sheet,
      phrase,
      targets: sheet.targets.map((one) => within(phrase, one)),
    })),
  'add target': (state, { target }) =>
    written(state, (sheet) => ({ ...sheet, targets: [...sheet.targets, newTarget(target, sheet)] })),
  'change target': (state, { index, target }) =>
    written(state, (sheet) => ({
      ...sheet,
      targets: sheet.targets.map((one, at) => (at === index ? target : one)),
    })),
  'remove target': (state, { index }) =>
    written(state, (sheet) => ({ ...sheet, targets: sheet.targets.filter((_, at) => at !== index) })),
  'exercise minutes': (state, { minutes }) => saidOf(state, 'minutes', minutes),
  'exercise before': (state, { words }) => saidOf(state, 'before', words === '' ? undefined : words),
  'write exercise': (state, { index }) => at(state, index),
  'add exercise': (state) => {
    const { phrase, bpm, library } = state;
    const { draft } = library;
    if (draft === null || exercisesOf(draft).length >= MOST_EXERCISES) return state;
    const target = newTarget('tempo', { phrase, bpm, limits: draft.limits });
    const all = [...exercisesOf(draft), { phrase, bpm, targets: [target], words: '' }];
    return at(
      drafted(state, () => withExercises(draft, all)),
      all.length - 1,
    );
  },
  'remove exercise': (state, { index }) => {
    const { draft } = state.library;
    if (draft === null || exercisesOf(draft).length < 2) return state;
    const left = exercisesOf(draft).filter((_, one) => one !== index);
    return at(
      drafted(state, () => withExercises(draft, left)),
      Math.min(index, left.length - 1),
    );
  },
  'exercise up': (state, { index }) => {
    const { draft } = state.library;
    if (draft === null || index === 0) return state;
    const all = [...exercisesOf(draft)];
    [all[index - 1], all[index]] = [all[index], all[index - 1]];
    return at(
      drafted(state, () => withExercises(draft, all)),
      index - 1,
    );
  },
  'close sheet': (state) => drafted(state, () => null),
  'sheet kept': (state) => ({ ...drafted(state, () => null), message: keptWords(state.library) }),
} satisfies Reducers;

/** A week sheet is written on the Library screen. */
function opened(state: State, draft: WeekSheet, draftOf: string): State {
  return {
    ...state,
    screen: 'library',
    note: null,
    message: '',
    library: { ...state.library, draft, draftOf, draftAt: 0 },
  };
}

/** A sheet as it was last written, kept or not. */
function begunOf({ library }: State, sheet: WeekSheet): WeekSheet {
  const drafts = library.begun.flatMap(({ draft }) => (draft.of === 'week sheet' ? [draft.sheet] : []));
  return drafts.find(({ id }) => id === sheet.id) ?? sheet;
}

/** With more than one player it is said whose it is. */
function keptWords({ players, draftOf }: Library): string {
  const owner = players.length < 2 ? undefined : players.find(({ id }) => id === draftOf);
  return owner === undefined
    ? 'The week sheet is kept.'
    : `${playerLabels(players).get(owner.id) ?? ''}’s week sheet is kept.`;
}

/** Nothing is written where none is open. */
function drafted(state: State, step: (draft: WeekSheet) => WeekSheet | null): State {
  const { draft } = state.library;
  return draft === null ? state : { ...state, library: { ...state.library, draft: step(draft) } };
}

/** An exercise of a sheet, chosen; takes of its phrase are played to the sheet from then on. */
export function atExercise(state: State, sheet: WeekSheet, index: number): State {
  const { phrase, bpm } = exercisesOf(sheet)[index] ?? sheet;
  return {
    ...withChoice(ownInput(state), chosen(phrase, null)),
    bpm,
    limits: sheet.limits,
    pace: steadyPace,
    library: { ...state.library, sheetId: sheet.id },
  };
}

/** What is written of the one exercise that is open, as if it were the sheet's only one. */
function written(state: State, step: (sheet: WeekSheet) => WeekSheet): State {
  const { draftAt } = state.library;
  return drafted(state, (draft) => {
    const next = step(sheetOf(draft, draftAt));
    const [exercise] = exercisesOf(next);
    const all = exercisesOf(draft).map((one, index) => (index === draftAt ? { ...one, ...exercise } : one));
    const { student, limits, due } = next;
    return withExercises({ ...draft, student, limits, due }, all);
  });
}

/** Of an exercise that no longer says it the key is gone. */
function saidOf(state: State, key: 'minutes' | 'before', value: number | string | undefined): State {
  const { draftAt } = state.library;
  return drafted(state, (draft) =>
    withExercises(
      draft,
      exercisesOf(draft).map((one, index) => {
        if (index !== draftAt) return one;
        const rest = Object.fromEntries(Object.entries(one).filter(([name]) => name !== key)) as WeekExercise;
        return value === undefined ? rest : { ...rest, [key]: value };
      }),
    ),
  );
}

const at = (state: State, draftAt: number): State => ({ ...state, library: { ...state.library, draftAt } });

function newSheet(state: State, id: string, dateMs: Ms): WeekSheet {
  const { phrase, bpm, library } = state;
  const limits = limitsOf(state);
  return {
    format: 'evenhand-week',
    version: 1,
    id,
    student: currentPlayer(library)?.name ?? '',
    phrase,
    bpm,
    limits,
    targets: [newTarget('tempo', { phrase, bpm, limits })],
    words: '',
    due: aWeekFrom(dateMs),
    changedAt: new Date(dateMs).toISOString(),
  };
}

const WEEK_DAYS = 7;

/** The day a week later, as a date of this place. */
function aWeekFrom(dateMs: Ms): string {
  const date = new Date(dateMs);
  date.setDate(date.getDate() + WEEK_DAYS);
  return [date.getFullYear(), date.getMonth() + 1, date.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');
}

/** A target of a variation that the new phrase doesn't have is one of the whole phrase. */
function within(phrase: Phrase, target: WeekTarget): WeekTarget {
  if (!('variation' in target) || target.variation === undefined) return target;
  if (variationsOf(phrase).includes(target.variation)) return target;
  return targetOf(target, undefined);
}
