import type { HistoryView } from '../../insight/history/view';
import type { Reducers } from './reducers';
import { firstHistory, type State } from '../state';

/** What History shows, and the term report that is written there. */
export const historyReducers = {
  'history phrase': (state, { id }) => ({ ...state, history: { ...firstHistory, phraseKey: id } }),
  'history rig': (state, { id }) => showing(state, { rigId: id }),
  'history variation': (state, { id }) => showing(state, { variation: id === '' ? null : id }),
  'term begun': (state, { term, playerId }) =>
    state.library.playerId === playerId ? showing(state, { term }) : state,
  'change term': (state, { change }) => {
    const { term } = state.history;
    return term === null ? state : showing(state, { term: { ...term, ...change } });
  },
  'close term': (state) => showing(state, { term: null }),
} satisfies Reducers;

const showing = (state: State, change: Partial<HistoryView>): State => ({
  ...state,
  history: { ...state.history, ...change },
});
