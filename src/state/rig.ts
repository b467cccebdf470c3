import { delaysAsked } from '../midi/learning/delays';
import { editedSurfaces } from '../midi/learning/edit-surfaces';
import {
  surfacesNow,
  withActivity,
  withClumped,
  withRigging,
  withStart,
  withSurfaces,
  withTask,
} from './rig/changes';
import { accepted, withOutputDelay } from './rig/delays-applied';
import { atTick } from './rig/pauses';
import { askedOnceMore } from './rig/progress';
import { keptRigs, rigChosen } from './rig/rigs';
import { withPortsChecked, withPortsSeen } from './rig/same-named';
import type { RiggingEvent } from './rig/state';
import { beginning, skipping } from './rig/steps';
import { atHit } from './rig/strikes';
import type { Sitting } from './state';

export type { Rigging, RiggingEvent, RigTask, TaskName } from './rig/state';

/**
 * The sitting after something happened on the Rig screen. Whatever is learned is in the rig at once, so that a step
 * can be left, skipped or done again at any time. A rig that is changed is kept under its name.
 */
export function riggingHeard(sitting: Sitting, event: RiggingEvent): Sitting {
  return withRigsKept(sitting, heard(sitting, event), event.kind === 'hit');
}

function heard(sitting: Sitting, event: RiggingEvent): Sitting {
  const { rigging, rig } = sitting;
  switch (event.kind) {
    case 'hit':
      return atHit(withActivity(sitting, event.hit), event.hit, event.newId);
    case 'tick':
      return atTick(sitting, event.atMs);
    case 'begin':
      return beginning(sitting, event.task, event.surface);
    case 'again':
      return withTask(sitting, askedOnceMore(rigging.task));
    case 'skip':
      return skipping(sitting);
    case 'rest':
      return withTask(sitting, { kind: 'rest' });
    case 'edit':
      return withSurfaces(sitting, editedSurfaces(surfacesNow(sitting), event.edit), '');
    case 'start surface':
      return { ...sitting, rig: withStart(rig, event.surface) };
    case 'clicks':
      return withTask(sitting, {
        kind: 'delays',
        state: delaysAsked(event.clicksMs),
        output: event.output,
      });
    case 'accept delays':
      return accepted(sitting);
    case 'output delay':
      return withOutputDelay(sitting, event.ms);
    case 'hear port': {
      const others = rigging.unheard.filter((name) => name !== event.port);
      return withRigging(sitting, { unheard: event.counts ? others : [...others, event.port] });
    }
    case 'port ids':
      return withRigging(sitting, { portIds: event.portIds });
    case 'clumped':
      return rig === null ? sitting : { ...sitting, rig: withClumped(rig, event.ports) };
    case 'monitor':
      return withRigging(sitting, { monitor: event.monitor });
    case 'kept':
    case 'new rig':
    case 'choose rig':
    case 'take rig':
    case 'name rig':
    case 'delete rig':
      return rigChosen(sitting, event);
  }
}

/** A rig with a name that was changed takes its place among those kept; its new ports are the ones just struck. */
function withRigsKept(before: Sitting, now: Sitting, isStruck: boolean): Sitting {
  if (now.rig === before.rig) return now;
  const kept = withRigging(now, { rigs: keptRigs(now.rigging.rigs, now.rig) });
  return withPortsChecked(isStruck ? withPortsSeen(before, kept) : kept);
}
