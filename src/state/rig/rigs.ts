import { InputError } from '../../errors';
import { noSurfaces } from '../../midi/learning/surfaces';
import type { NamedRig } from '../../sessions/rig-file';
import type { Rig } from '../../sessions/types';
import type { Rigging } from './state';
import type { State } from '../state';

/** None yet: the next strike begins one. */
export function newRig(state: State): State {
  return withRig({ ...state, rigging: { ...state.rigging, surfaces: noSurfaces } }, null);
}

/** @throws InputError where it is none of those kept */
export function rigChosen(state: State, id: string): State {
  const chosen = state.rigging.rigs.find((rig) => rig.id === id);
  if (chosen === undefined) throw new InputError('rig', 'must be one of those kept', id);
  return withRig(state, chosen);
}

/** A rig of a file is in use at once. */
export function rigAdded(state: State, rig: NamedRig): State {
  return withRig(state, rig);
}

/** @throws InputError for an empty name */
export function rigNamed(state: State, name: string, newId: string): State {
  const { rig } = state;
  if (rig === null) return state;
  if (name.trim() === '') throw new InputError('name', 'must not be empty', name);
  return { ...state, rig: { ...rig, id: rig.id ?? newId, name: name.trim() } };
}

/** Where it was in use, the newest of the others is. */
export function rigDeleted(state: State, id: string): State {
  const { rigging, rig } = state;
  const rigs = rigging.rigs.filter((one) => one.id !== id);
  const left = { ...state, rigging: { ...rigging, rigs } };
  return rig?.id === id ? withRig(left, rigs[0] ?? null) : left;
}

/** The rigs kept, with this one in its place, the newest first. */
export function keptRigs(rigs: readonly NamedRig[], rig: Rig | null): readonly NamedRig[] {
  if (rig?.id === undefined || rig.name === undefined) return rigs;
  const { id, name } = rig;
  if (rigs.some((one) => one === rig)) return rigs;
  return [{ ...rig, id, name }, ...rigs.filter((one) => one.id !== id)];
}

/** Another rig on the stand: what was shown on the one before is gone from the screen, and kept with it. */
function withRig(state: State, rig: Rig | null): State {
  const fresh: Partial<Rigging> = { task: { kind: 'rest' }, taps: null, results: {}, heightsShown: [] };
  return { ...state, rig, rigging: { ...state.rigging, ...fresh } };
}
