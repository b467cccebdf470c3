import { delayWords, rigWithDelays } from '../../midi/learning/delays';
import type { Ms } from '../../units';
import type { Sitting } from '../state';
import { withTask, withTold } from './changes';
import { after } from './steps';

/** Delays go into the rig by the player's hand only; takes played before keep their own. */
export function accepted(sitting: Sitting): Sitting {
  const { task } = sitting.rigging;
  if (task.kind !== 'delays found' || sitting.rig === null) return sitting;
  const rig = rigWithDelays(sitting.rig, task.found);
  return after(withTold({ ...sitting, rig }, 'delays', delayWords(task.found)), 'delays');
}

/** What the player knows of the sound: the sum stays, and what is left of it is the kit's. */
export function withOutputDelay(sitting: Sitting, ms: Ms): Sitting {
  const { task } = sitting.rigging;
  if (task.kind !== 'delays found') return sitting;
  const { sumMs } = task.found;
  const found = { ...task.found, inputMs: sumMs - ms, outputMs: ms, output: 'by hand' as const };
  return withTask(sitting, { kind: 'delays found', found });
}
