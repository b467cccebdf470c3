import { draftId, type Begun, type Draft } from '../../sessions/draft';
import type { State } from '../state';
import type { Reducers } from './reducers';

/** What is begun and not given: it follows whatever is written, and stays when the screen, the player or the page changes. */
export const writtenReducers = {
  'change note': withNoteBegun,
  'use saying': withNoteBegun,
  'change sheet': withSheetBegun,
  'sheet phrase': withSheetBegun,
  'add target': withSheetBegun,
  'change target': withSheetBegun,
  'remove target': withSheetBegun,
  'exercise minutes': withSheetBegun,
  'exercise before': withSheetBegun,
  'add exercise': withSheetBegun,
  'remove exercise': withSheetBegun,
  'exercise up': withSheetBegun,
  // One that is kept is as it is kept; one made of a note has its words nowhere else.
  'edit sheet': (state, { sheet }) =>
    state.library.sheets.some((one) => one.sheet.id === sheet.id) ? state : withSheetBegun(state),
  'change term': (state) => {
    const { term } = state.history;
    return term === null ? state : withBegun(state, state.library.playerId, { of: 'term report', ...term });
  },
  'type list words': (state, { words }) =>
    withBegun(withListWords(state, words), state.library.playerId, { of: 'list', words }),
  'list phrase': (state) =>
    without(withListWords(state, ''), draftId({ playerId: state.library.playerId, draft: noWords })),
  'drop draft': (state, { begun }) => without(closed(state, begun), draftId(begun)),
} satisfies Reducers;

const noWords: Draft = { of: 'list', words: '' };

function withNoteBegun(state: State): State {
  const { note, reviewed } = state;
  if (note === null || reviewed === null) return state;
  const { takeId, playerId, text } = note;
  const { title } = reviewed.take.phrase;
  return withBegun(state, playerId, { of: 'note', takeId, title, ...text });
}

function withSheetBegun(state: State): State {
  const { draft, draftOf } = state.library;
  return draft === null ? state : withBegun(state, draftOf, { of: 'week sheet', sheet: draft });
}

function withBegun(state: State, playerId: string, draft: Draft): State {
  const begun: Begun = { playerId, draft };
  const others = state.library.begun.filter((one) => draftId(one) !== draftId(begun));
  return { ...state, library: { ...state.library, begun: [begun, ...others] } };
}

function without(state: State, id: string): State {
  const begun = state.library.begun.filter((one) => draftId(one) !== id);
  return { ...state, library: { ...state.library, begun } };
}

const withListWords = (state: State, listWords: string): State => ({
  ...state,
  library: { ...state.library, listWords },
});

/** What is thrown away is written no more. */
function closed(state: State, { draft }: Begun): State {
  switch (draft.of) {
    case 'note':
      return state.note?.takeId === draft.takeId ? { ...state, note: null } : state;
    case 'week sheet':
      return state.library.draft?.id === draft.sheet.id
        ? { ...state, library: { ...state.library, draft: null } }
        : state;
    case 'list':
      return withListWords(state, '');
    case 'term report':
      return { ...state, history: { ...state.history, term: null } };
  }
}
