import type { NoteDraft } from '../note-draft';
import type { Reducers } from './reducers';
import type { State } from '../state';

/** The lesson note that is written in Review. */
export const noteReducers = {
  // Another take may be open by the time its words are there.
  'note begun': (state, { note }) => (state.reviewed?.take.id === note.takeId ? { ...state, note } : state),
  'change note': (state, { change }) => withNote(state, ({ text }) => ({ text: { ...text, ...change } })),
  'use saying': (state, { saying }) =>
    withNote(state, ({ text }) => ({
      text: { ...text, words: [text.words.trimEnd(), saying].filter((line) => line !== '').join('\n') },
    })),
  'sayings kept': (state, { sayings }) => withNote(state, () => ({ sayings })),
  'close note': (state) => ({ ...state, note: null }),
} satisfies Reducers;

/** Nothing is written where no note is open. */
function withNote(state: State, change: (note: NoteDraft) => Partial<NoteDraft>): State {
  return state.note === null ? state : { ...state, note: { ...state.note, ...change(state.note) } };
}
