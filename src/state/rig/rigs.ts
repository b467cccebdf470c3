import { InputError } from '../../errors';
import { noSurfaces } from '../../midi/learning/surfaces';
import type { NamedRig } from '../../sessions/rig-file';
import type { Rig } from '../../sessions/types';
import type { Sitting } from '../state';
import type { Rigging, RiggingEvent } from './state';

type RigsEvent = Extract<
  RiggingEvent,
  { readonly kind: 'kept' | 'new rig' | 'choose rig' | 'take rig' | 'name rig' | 'delete rig' }
>;

/** The sitting after something was said of whole rigs. */
export function rigChosen(sitting: Sitting, event: RigsEvent): Sitting {
  const { rigging, rig } = sitting;
  switch (event.kind) {
    case 'kept':
      return { ...sitting, rigging: { ...rigging, rigs: event.rigs, unheard: event.unheard } };
    case 'new rig':
      return withRig({ ...sitting, rigging: { ...rigging, surfaces: noSurfaces } }, null);
    case 'choose rig': {
      const chosen = rigging.rigs.find(({ id }) => id === event.id);
      if (chosen === undefined) throw new InputError('rig', 'must be one of those kept', event.id);
      return withRig(sitting, chosen);
    }
    case 'take rig':
      return withRig(sitting, event.rig);
    case 'name rig': {
      if (rig === null) return sitting;
      const name = event.name.trim();
      if (name === '') throw new InputError('name', 'must not be empty', event.name);
      return { ...sitting, rig: { ...rig, id: rig.id ?? event.newId, name } };
    }
    case 'delete rig': {
      const rigs = rigging.rigs.filter(({ id }) => id !== event.id);
      const left = { ...sitting, rigging: { ...rigging, rigs } };
      return rig?.id === event.id ? withRig(left, rigs[0] ?? null) : left;
    }
  }
}

/** The rigs kept, with this one in its place, the newest first. */
export function keptRigs(rigs: readonly NamedRig[], rig: Rig | null): readonly NamedRig[] {
  if (rig?.id === undefined || rig.name === undefined) return rigs;
  const { id, name } = rig;
  if (rigs.some((one) => one === rig)) return rigs;
  return [{ ...rig, id, name }, ...rigs.filter((one) => one.id !== id)];
}

/** Another rig on the stand: what was shown on the one before is gone from the screen, and kept with it. */
function withRig(sitting: Sitting, rig: Rig | null): Sitting {
  const fresh: Partial<Rigging> = { task: { kind: 'rest' }, taps: null, told: {}, heightsShown: [] };
  return { ...sitting, rig, rigging: { ...sitting.rigging, ...fresh } };
}
