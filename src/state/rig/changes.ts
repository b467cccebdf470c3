import { foundOf, rigWithFound, without } from './found';
import type { Rigging, RigTask, TaskName } from './state';
import type { Sitting } from '../state';
import type { Rig } from '../../sessions/types';
import type { RawHit } from '../../stroke';

// Small changes of a sitting on the Rig screen; what leads to which is told in ../rigging.

/** The surfaces as found, or as the rig has them where it was made or changed elsewhere. */
export function surfacesNow({ rigging, rig }: Sitting): Rigging['surfaces'] {
  return rigging.surfacesOf === rig ? rigging.surfaces : foundOf(rig);
}

export function withSurfaces(sitting: Sitting, surfaces: Rigging['surfaces'], newId: string): Sitting {
  const { rig, rigging } = sitting;
  const name = freeRigName(rigging, surfaces.found[0]?.port ?? 'Rig');
  const now = rigWithFound(rig, surfaces, { id: newId === '' ? 'rig' : newId, name });
  const last = surfaces.last ?? rigging.surfaces.last;
  return withRigging({ ...sitting, rig: now }, { surfaces: { ...surfaces, last }, surfacesOf: now });
}

function freeRigName({ rigs }: Rigging, name: string): string {
  const taken = new Set(rigs.map((rig) => rig.name));
  let free = name;
  for (let count = 2; taken.has(free); count += 1) free = `${name} ${count}`;
  return free;
}

export function withStart(rig: Rig | null, surface: string | null): Rig | null {
  if (rig === null) return null;
  return surface === null ? without(rig, 'start') : { ...rig, start: { surface } };
}

export function withClumped(rig: Rig, ports: readonly string[]): Rig {
  return ports.length === 0 ? without(rig, 'clumpedPorts') : { ...rig, clumpedPorts: ports };
}

export function withActivity(sitting: Sitting, { port, velocity, atMs }: RawHit): Sitting {
  const { activity } = sitting.rigging;
  const strikes = (activity.get(port)?.strikes ?? 0) + 1;
  return withRigging(sitting, { activity: new Map(activity).set(port, { velocity, atMs, strikes }) });
}

export function withTask(sitting: Sitting, task: RigTask): Sitting {
  return withRigging(sitting, { task, taps: null });
}

export function withTold(sitting: Sitting, name: TaskName, words: readonly string[]): Sitting {
  return withRigging(sitting, { told: { ...sitting.rigging.told, [name]: words } });
}

export function withRigging(sitting: Sitting, change: Partial<Rigging>): Sitting {
  return { ...sitting, rigging: { ...sitting.rigging, ...change } };
}
