import type { Phrase } from '../../exercises/types';
import { playerLabels } from '../../sessions/player-code';
import { newTarget, targetOf } from '../../sessions/week/new-target';
import type { WeekSheet, WeekTarget } from '../../sessions/week-sheet';
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
  'play sheet': (state, { sheet: { phrase, bpm, limits, id } }) => ({
    ...withChoice(ownInput(state), chosen(phrase, null)),
    bpm,
    limits,
    pace: steadyPace,
    screen: 'play',
    library: { ...state.library, sheetId: id },
    message: 'Takes of this phrase are played to the week sheet.',
  }),
  'new sheet': (state, { id, dateMs }) => opened(state, newSheet(state, id, dateMs), state.library.playerId),
  'edit sheet': (state, { sheet, playerId }) => opened(state, begunOf(state, sheet), playerId),
  'change sheet': (state, { change }) => drafted(state, (draft) => ({ ...draft, ...change })),
  'sheet phrase': (state, { phrase }) =>
    drafted(state, (draft) => ({
      ...draft,
      phrase,
      targets: draft.targets.map((one) => within(phrase, one)),
    })),
  'add target': (state, { target }) =>
    drafted(state, (draft) => ({ ...draft, targets: [...draft.targets, newTarget(target, draft)] })),
  'change target': (state, { index, target }) =>
    drafted(state, (draft) => ({
      ...draft,
      targets: draft.targets.map((one, at) => (at === index ? target : one)),
    })),
  'remove target': (state, { index }) =>
    drafted(state, (draft) => ({ ...draft, targets: draft.targets.filter((_, at) => at !== index) })),
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
    library: { ...state.library, draft, draftOf },
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
