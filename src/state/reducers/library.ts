import type { Library } from '../library';
import type { Reducers } from './reducers';
import { currentPlayer } from '../selectors/library';
import { firstHistory, type State } from '../state';

/** The library of this browser, as far as the page shows it. */
export const libraryReducers = {
  library: (state, { change }) => withLibrary(state, change),
  'names in files': (state, { on }) => withLibrary(state, { namesInFiles: on }),
  'dismiss files': (state) => withLibrary(state, { files: [] }),
} satisfies Reducers;

/** The library changed. With another player's turn come their limits. */
function withLibrary(state: State, change: Partial<Library>): State {
  const library = { ...state.library, ...change };
  if (library.playerId === state.library.playerId) return { ...state, library };
  const limits = currentPlayer(library)?.limits ?? state.limits;
  return {
    ...state,
    library: { ...library, warmedUp: false, sheetId: '', draft: null },
    limits,
    history: firstHistory,
    // A clock that was started before the library was open is theirs: nobody else had the turn.
    today: state.library.playerId === '' ? state.today : { ...state.today, clock: null },
  };
}
