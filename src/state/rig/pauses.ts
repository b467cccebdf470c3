import type { Ms } from '../../units';
import type { Sitting } from '../state';
import { withRigging, withStart, withTask } from './changes';
import { accepted } from './delays-applied';
import { askedOnceMore, isDone } from './progress';
import type { Rigging } from './state';
import { beginning, finished, goingOn, skipping } from './steps';
import { settledTaps } from './taps';
import { playedSurfaces } from './tasks';

/** When no new surface has been struck for this long, the hands are asked for. */
const ALL_THERE_MS: Ms = 4000;

/** What silence brings about: a step that is done, or a command of the strikes before it. */
export function atTick(sitting: Sitting, atMs: Ms): Sitting {
  const { rigging, rig } = sitting;
  const { task, surfaces } = rigging;
  if (task.kind === 'surfaces') {
    const { last } = surfaces;
    const allThere = rig !== null && last !== null && atMs - last.atMs >= ALL_THERE_MS;
    return allThere ? beginning(sitting, playedSurfaces(rig).length === 0 ? 'surfaces' : 'hands') : sitting;
  }
  if (isDone(task, atMs)) return finished(sitting, atMs);
  const taps = settledTaps(rigging.taps, atMs);
  return taps === null ? sitting : commanded(withRigging(sitting, { taps: null }), taps);
}

/**
 * What strikes in a row mean. While a surface is asked for, on others: two, again; three, skip. At rest: two, go on teaching;
 * three, this surface starts and stops takes, and Play opens. Between steps: one, go on; three, enough.
 */
function commanded(sitting: Sitting, { count, surface }: NonNullable<Rigging['taps']>): Sitting {
  const { task } = sitting.rigging;
  switch (task.kind) {
    case 'rest':
      if (count === 2) return goingOn(sitting);
      if (count !== 3 || surface === null || sitting.rig === null) return sitting;
      return { ...sitting, rig: withStart(sitting.rig, surface), screen: 'play', message: '' };
    case 'between':
      if (count === 1 && task.next !== null) return beginning(sitting, task.next);
      if (count === 2) return beginning(sitting, task.done);
      return count === 3 ? withTask(sitting, { kind: 'rest' }) : sitting;
    case 'delays found':
      if (count === 2) return withTask(sitting, askedOnceMore(task));
      return count === 3 ? accepted(sitting) : sitting;
    default:
      if (count === 2) return withTask(sitting, askedOnceMore(task));
      return count === 3 ? skipping(sitting) : sitting;
  }
}
