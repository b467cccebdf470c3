import type { Reducers } from './reducers';
import type { UnkeptTake } from '../unkept';

/** Takes that could not be kept. */
export const unkeptReducers = {
  'recording fails': (state, { why }) => ({ ...state, recordingFails: state.running === null ? '' : why }),
  'take unkept': (state, { unkept }) => ({
    ...state,
    unkept: [unkept, ...others(state.unkept, unkept.take.id)],
  }),
  'unkept done': (state, { id }) => ({ ...state, unkept: others(state.unkept, id) }),
  'download take': (state, { id }) => ({
    ...state,
    unkept: state.unkept.map((one) => (one.take.id === id ? { ...one, downloaded: true } : one)),
  }),
} satisfies Reducers;

const others = (unkept: readonly UnkeptTake[], id: string): readonly UnkeptTake[] =>
  unkept.filter(({ take }) => take.id !== id);
