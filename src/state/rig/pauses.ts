import type { Ms } from '../../units';
import type { Rigging } from './state';
import type { State } from '../state';
import { accepted } from './delays-applied';
import { askedOnceMore, isDone } from './progress';
import { beginning, finished, goingOn, skipping } from './steps';
import { playedSurfaces } from './tasks';
import { settledTaps } from './taps';
import { withRigging, withStart, withTask } from './changes';

/** When no new surface has been struck for this long, the hands are asked for. */
const ALL_THERE_MS: Ms = 4000;

/** What silence brings about: a step that is done, or a command of the strikes before it. */
export function atTick(state: State, atMs: Ms): State {
  const { rigging, rig } = state;
  const { task, surfaces } = rigging;
  if (task.kind === 'surfaces') {
    const { last } = surfaces;
    const allThere = rig !== null && last !== null && atMs - last.atMs >= ALL_THERE_MS;
    return allThere ? beginning(state, playedSurfaces(rig).length === 0 ? 'surfaces' : 'hands') : state;
  }
  if (isDone(task, atMs)) return finished(state, atMs);
  const taps = settledTaps(rigging.taps, atMs);
  return taps === null ? state : commanded(withRigging(state, { taps: null }), taps);
}

/**
 * What strikes in a row mean. While a surface is asked for, on others: two, again; three, skip. At rest: two, go on teaching;
 * three, this surface starts and stops takes, and Play opens. Between steps: one, go on; three, enough.
 */
function commanded(state: State, { count, surface }: NonNullable<Rigging['taps']>): State {
  const { task } = state.rigging;
  switch (task.kind) {
    case 'rest':
      if (count === 2) return goingOn(state);
      if (count !== 3 || surface === null || state.rig === null) return state;
      return { ...state, rig: withStart(state.rig, surface), screen: 'play', message: '' };
    case 'between':
      if (count === 1 && task.next !== null) return beginning(state, task.next);
      if (count === 2) return beginning(state, task.done);
      return count === 3 ? withTask(state, { kind: 'rest' }) : state;
    case 'delays found':
      if (count === 2) return withTask(state, askedOnceMore(task));
      return count === 3 ? accepted(state) : state;
    default:
      if (count === 2) return withTask(state, askedOnceMore(task));
      return count === 3 ? skipping(state) : state;
  }
}
