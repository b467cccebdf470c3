import type { Rigging, RigTask } from './state';
import type { State } from '../state';
import type { TaskName } from './task-names';
import { foundOf, rigWithFound, without } from './found';
import type { Rig } from '../../sessions/types';
import type { RawHit } from '../../stroke';

// Small changes of the state on the Rig screen; what leads to which is told in ../rigging.

/** The surfaces as found, or as the rig has them where it was made or changed elsewhere. */
export function surfacesNow({ rigging, rig }: State): Rigging['surfaces'] {
  return rigging.surfacesOf === rig ? rigging.surfaces : foundOf(rig);
}

export function withSurfaces(state: State, surfaces: Rigging['surfaces'], newId: string): State {
  const { rig, rigging } = state;
  const name = freeRigName(rigging, surfaces.found[0]?.port ?? 'Rig');
  const now = rigWithFound(rig, surfaces, { id: newId === '' ? 'rig' : newId, name });
  const last = surfaces.last ?? rigging.surfaces.last;
  return withRigging({ ...state, rig: now }, { surfaces: { ...surfaces, last }, surfacesOf: now });
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

export function withActivity(state: State, { port, velocity, atMs }: RawHit): State {
  const { activity } = state.rigging;
  const strikes = (activity.get(port)?.strikes ?? 0) + 1;
  return withRigging(state, { activity: new Map(activity).set(port, { velocity, atMs, strikes }) });
}

export function withTask(state: State, task: RigTask): State {
  return withRigging(state, { task, taps: null });
}

export function withResults(state: State, name: TaskName, words: readonly string[]): State {
  return withRigging(state, { results: { ...state.rigging.results, [name]: words } });
}

export function withRigging(state: State, change: Partial<Rigging>): State {
  return { ...state, rigging: { ...state.rigging, ...change } };
}
