import type { Reducers } from './reducers';

/** Which screen is open, and the lines that are said on all of them. What was open on the screen before is closed. */
export const pageReducers = {
  go: (state, { screen }) => ({
    ...state,
    screen,
    sheetOpen: false,
    note: null,
    library: { ...state.library, draft: null },
    history: { ...state.history, term: null },
    problem: '',
    message: '',
  }),
  message: (state, { message }) => ({ ...state, message }),
  'message over': (state, { message }) => (state.message === message ? { ...state, message: '' } : state),
  problem: (state, { problem }) => ({ ...state, problem }),
} satisfies Reducers;
