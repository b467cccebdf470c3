import { delayWords, rigWithDelays } from '../../midi/learning/delays';
import type { Ms } from '../../units';
import type { State } from '../state';
import { after } from './steps';
import { withTask, withResults } from './changes';

/** Delays go into the rig by the player's hand only; takes played before keep their own. */
export function accepted(state: State): State {
  const { task } = state.rigging;
  if (task.kind !== 'delays found' || state.rig === null) return state;
  const rig = rigWithDelays(state.rig, task.found);
  return after(withResults({ ...state, rig }, 'delays', delayWords(task.found)), 'delays');
}

/** What the player knows of the sound: the sum stays, and what is left of it is the kit's. */
export function withOutputDelay(state: State, ms: Ms): State {
  const { task } = state.rigging;
  if (task.kind !== 'delays found') return state;
  const { sumMs } = task.found;
  const found = { ...task.found, inputMs: sumMs - ms, outputMs: ms, output: 'by hand' as const };
  return withTask(state, { kind: 'delays found', found });
}
