import { settingsOf } from '../../settings';
import { figureNow } from '../../take/live/figures';
import type { Reducers } from './reducers';
import type { State } from '../state';
import { figureInUse } from '../selectors/view';
import { nothingPlayed } from './chosen';

/** The take that is running, and what is to be seen of it. */
export const runReducers = {
  started: (state, { running }) => ({
    ...state,
    running,
    ...nothingPlayed,
    position: null,
    recordingFails: '',
    message: '',
    problem: '',
  }),
  live: (state, { live }) => ({ ...state, live }),
  position: (state, { position }) => withFigureNow({ ...state, position, liveAtBeat: state.live }),
  ended: (state, { strokes }) => ({
    ...state,
    running: null,
    teacherPlays: state.teacherPlays && !strokes,
    position: null,
    recordingFails: '',
    message: strokes ? '' : 'No strokes came, so there is no take. Is the right input chosen?',
  }),
  figure: (state, { figure }) => withFigureNow({ ...state, figureChoice: figure }),
  view: (state, { change }) => ({ ...state, view: { ...state.view, ...change } }),
  'view kept': (state, { view, figure }) => ({ ...state, view, figureChoice: figure }),
} satisfies Reducers;

/** Renewed with each beat, so that it can be read. */
function withFigureNow(state: State): State {
  const { running, live, limits, position } = state;
  if (running === null) return state;
  const bar = position?.phase === 'playing' ? position.barInCycle : 0;
  const now = figureNow(figureInUse(state), running.grid, live, settingsOf(limits), bar);
  return { ...state, figureNow: now };
}
