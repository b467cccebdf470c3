import { settingsOf } from '../../settings';
import type { Ms } from '../../units';
import type { RigTask } from './state';
import type { State } from '../state';
import type { TaskName } from './task-names';
import { begun, nextFiner, playedSurfaces } from './tasks';
import { delaysOf, learnedBy, nameOfTask, skipped } from './progress';
import { surfacesNow, withRigging, withTask, withResults } from './changes';

// Which step follows which: how one begins, learns, ends and is left out.

/** A step begins; the state as it was where the rig has nothing to ask for. */
export function beginning(state: State, name: TaskName, surface?: string): State {
  const task = begun(state.rig, name, surface);
  if (task === null) return state;
  if (name !== 'surfaces') return withTask(state, task);
  // Found anew: how long ago the last was struck counts from now on.
  return withTask(withRigging(state, { surfaces: { ...surfacesNow(state), last: null } }), task);
}

/** The first thing the rig does not know yet. */
export function goingOn(state: State): State {
  const { rig } = state;
  if (rig === null) return beginning(state, 'surfaces');
  if (playedSurfaces(rig).every(({ heights }) => heights === undefined)) return beginning(state, 'heights');
  const next = nextFiner(rig, 'heights');
  return next === null ? state : beginning(state, next);
}

/** A stroke further in a step. */
export function learning(state: State, task: RigTask): State {
  const before = state.rigging.task;
  const now = withRigging(state, { task });
  // Heights are learned as they are shown; all else when it is whole.
  const isPart = task.kind === 'heights' && before.kind === 'heights' && task.state.at !== before.state.at;
  return isPart ? withLearned(now) : now;
}

/** A step has all that it asked for. */
export function finished(state: State, atMs: Ms): State {
  const { task } = state.rigging;
  if (task.kind === 'delays') {
    const found = delaysOf(task);
    if (found !== undefined) return withTask(state, { kind: 'delays found', found });
    const words =
      'These strokes did not follow the click closely enough to tell a delay by. Play along once more.';
    return after(withResults(state, 'delays', [words]), 'delays', atMs);
  }
  const name = nameOfTask(task);
  return name === null ? state : after(withLearned(state), name, atMs);
}

/** The short path ends at rest; a finer step leads to the next. */
export function after(state: State, done: TaskName, quietFromMs: Ms = -Infinity): State {
  if (done === 'heights') return withTask(state, { kind: 'rest' });
  return withTask(state, { kind: 'between', done, next: nextFiner(state.rig, done), quietFromMs });
}

/** What is asked for just now is left out. */
export function skipping(state: State): State {
  const { task } = state.rigging;
  switch (task.kind) {
    case 'surfaces':
      return state.rig === null ? state : beginning(state, 'hands');
    case 'hands':
      return beginning(state, 'heights');
    case 'rest':
      return state;
    case 'between':
      return task.next === null ? withTask(state, { kind: 'rest' }) : beginning(state, task.next);
    case 'delays found':
      return after(state, 'delays');
    case 'heights': {
      const left = skipped(task);
      return left === null ? withTask(state, { kind: 'rest' }) : withTask(state, left);
    }
    default: {
      const left = skipped(task);
      return left === null ? after(withLearned(state), task.kind) : withTask(state, left);
    }
  }
}

function withLearned(state: State): State {
  const { rig, rigging, limits } = state;
  const name = nameOfTask(rigging.task);
  if (rig === null || name === null) return state;
  const learned = learnedBy(rigging.task, rig, settingsOf(limits));
  if (learned === undefined) return state;
  const shown = learned.heights ?? [];
  const isNew = (one: (typeof shown)[number]): boolean =>
    !shown.some(({ surface, hand }) => surface === one.surface && hand === one.hand);
  return withRigging(
    { ...state, rig: learned.rig },
    {
      results: { ...rigging.results, [name]: learned.words },
      heightsShown: [...rigging.heightsShown.filter(isNew), ...shown],
    },
  );
}
