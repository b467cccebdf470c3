import { settingsOf } from '../../settings';
import type { Ms } from '../../units';
import type { Sitting } from '../state';
import { surfacesNow, withRigging, withTask, withTold } from './changes';
import { delaysOf, learnedBy, nameOfTask, skipped } from './progress';
import type { RigTask, TaskName } from './state';
import { begun, nextFiner, playedSurfaces } from './tasks';

// Which step follows which: how one begins, learns, ends and is left out.

/** A step begins; the sitting as it was where the rig has nothing to ask for. */
export function beginning(sitting: Sitting, name: TaskName, surface?: string): Sitting {
  const task = begun(sitting.rig, name, surface);
  if (task === null) return sitting;
  if (name !== 'surfaces') return withTask(sitting, task);
  // Found anew: how long ago the last was struck counts from now on.
  return withTask(withRigging(sitting, { surfaces: { ...surfacesNow(sitting), last: null } }), task);
}

/** The first thing the rig does not know yet. */
export function goingOn(sitting: Sitting): Sitting {
  const { rig } = sitting;
  if (rig === null) return beginning(sitting, 'surfaces');
  if (playedSurfaces(rig).every(({ heights }) => heights === undefined)) return beginning(sitting, 'heights');
  const next = nextFiner(rig, 'heights');
  return next === null ? sitting : beginning(sitting, next);
}

/** A stroke further in a step. */
export function learning(sitting: Sitting, task: RigTask): Sitting {
  const before = sitting.rigging.task;
  const now = withRigging(sitting, { task });
  // Heights are learned as they are shown; all else when it is whole.
  const isPart = task.kind === 'heights' && before.kind === 'heights' && task.state.at !== before.state.at;
  return isPart ? withLearned(now) : now;
}

/** A step has all that it asked for. */
export function finished(sitting: Sitting, atMs: Ms): Sitting {
  const { task } = sitting.rigging;
  if (task.kind === 'delays') {
    const found = delaysOf(task);
    if (found !== undefined) return withTask(sitting, { kind: 'delays found', found });
    const words =
      'These strokes did not follow the click closely enough to tell a delay by. Play along once more.';
    return after(withTold(sitting, 'delays', [words]), 'delays', atMs);
  }
  const name = nameOfTask(task);
  return name === null ? sitting : after(withLearned(sitting), name, atMs);
}

/** The short path ends at rest; a finer step leads to the next. */
export function after(sitting: Sitting, done: TaskName, quietFromMs: Ms = -Infinity): Sitting {
  if (done === 'heights') return withTask(sitting, { kind: 'rest' });
  return withTask(sitting, { kind: 'between', done, next: nextFiner(sitting.rig, done), quietFromMs });
}

/** What is asked for just now is left out. */
export function skipping(sitting: Sitting): Sitting {
  const { task } = sitting.rigging;
  switch (task.kind) {
    case 'surfaces':
      return sitting.rig === null ? sitting : beginning(sitting, 'hands');
    case 'hands':
      return beginning(sitting, 'heights');
    case 'rest':
      return sitting;
    case 'between':
      return task.next === null ? withTask(sitting, { kind: 'rest' }) : beginning(sitting, task.next);
    case 'delays found':
      return after(sitting, 'delays');
    case 'heights': {
      const left = skipped(task);
      return left === null ? withTask(sitting, { kind: 'rest' }) : withTask(sitting, left);
    }
    default: {
      const left = skipped(task);
      return left === null ? after(withLearned(sitting), task.kind) : withTask(sitting, left);
    }
  }
}

function withLearned(sitting: Sitting): Sitting {
  const { rig, rigging, limits } = sitting;
  const name = nameOfTask(rigging.task);
  if (rig === null || name === null) return sitting;
  const learned = learnedBy(rigging.task, rig, settingsOf(limits));
  if (learned === undefined) return sitting;
  const shown = learned.heights ?? [];
  const isNew = (one: (typeof shown)[number]): boolean =>
    !shown.some(({ surface, hand }) => surface === one.surface && hand === one.hand);
  return withRigging(
    { ...sitting, rig: learned.rig },
    {
      told: { ...rigging.told, [name]: learned.words },
      heightsShown: [...rigging.heightsShown.filter(isNew), ...shown],
    },
  );
}
