import { closestPairAsked } from '../../midi/learning/closest-pair';
import { noFalseNotes } from '../../midi/learning/false-notes';
import { heightsAsked } from '../../midi/learning/heights';
import { softestAsked } from '../../midi/learning/softest';
import { spotsAsked, type SpotPlaces } from '../../midi/learning/spots';
import { trimsAsked } from '../../midi/learning/trims';
import type { Rig, Surface } from '../../sessions/types';
import type { Hand } from '../../stroke';
import type { RigTask } from './state';
import { noStrikes } from '../struck-hands';
import { type TaskName, taskNames } from './task-names';

/** The hands' surfaces that are played: without the feet's, and without one that only starts a take. */
export function playedSurfaces(rig: Rig): readonly Surface[] {
  const ofHands = rig.surfaces.filter(({ foot }) => foot === undefined);
  const isStart = ({ id }: Surface): boolean => id === rig.start?.surface;
  const isNeeded = (['R', 'L'] as const).some((hand) =>
    ofHands.filter((one) => one.hand === null || one.hand === hand).every(isStart),
  );
  return isNeeded ? ofHands : ofHands.filter((one) => !isStart(one));
}

/**
 * The surfaces that the short path asks about: those that one hand has for itself; where none has, the first.
 * The others are asked about one by one, by name.
 */
function mainSurfaces(rig: Rig): readonly Surface[] {
  const played = playedSurfaces(rig);
  const ofOne = played.filter(({ hand }) => hand !== null);
  return ofOne.length > 0 ? ofOne : played.slice(0, 1);
}

/**
 * A step as it begins.
 * @param surface id of the one surface to ask about; those of the short path where left out
 * @returns null where the rig has nothing to ask for
 */
export function begun(rig: Rig | null, task: TaskName, surface?: string): RigTask | null {
  if (task === 'surfaces') return { kind: 'surfaces' };
  if (rig === null) return null;
  const played = playedSurfaces(rig);
  const asked = surface === undefined ? mainSurfaces(rig) : played.filter(({ id }) => id === surface);
  if (asked.length === 0) return null;
  switch (task) {
    case 'hands':
      return { kind: 'hands', strikes: noStrikes };
    case 'heights':
      return { kind: 'heights', state: heightsAsked({ ...rig, surfaces: asked }) };
    case 'spots': {
      const places = surface === undefined ? placesOf(rig) : { R: surface, L: surface };
      return places === null ? null : { kind: 'spots', places, state: spotsAsked(places) };
    }
    case 'trims': {
      const ids = played.map(({ id }) => id);
      return ids.length < 2 ? null : { kind: 'trims', state: trimsAsked(ids, 'R') };
    }
    case 'softest':
      return { kind: 'softest', state: softestAsked({ ...rig, surfaces: played }) };
    case 'pairs':
      return { kind: 'pairs', state: closestPairAsked(asked[0].id, asked[0].hand ?? 'R') };
    case 'false notes':
      return { kind: 'false notes', state: noFalseNotes, sinceMs: null };
    case 'delays':
      return { kind: 'delays', state: null, output: null };
  }
}

/** The finer step after this one that the rig can be asked for; null after the last. */
export function nextFiner(rig: Rig | null, after: TaskName): TaskName | null {
  const later = taskNames.slice(taskNames.indexOf(after) + 1);
  return later.find((name) => begun(rig, name) !== null && isWorth(rig, name)) ?? null;
}

/** Trims come with the swapped spots where there are two surfaces, a hand each. */
function isWorth(rig: Rig | null, name: TaskName): boolean {
  if (name !== 'trims' || rig === null) return true;
  const places = placesOf(rig);
  return playedSurfaces(rig).length > 2 || places === null || places.R === places.L;
}

/** Where the hands' landing spots are: a surface a hand, or both on one that either may play. */
function placesOf(rig: Rig): SpotPlaces | null {
  const played = playedSurfaces(rig);
  const of = (hand: Hand): string | undefined =>
    (played.find((one) => one.hand === hand) ?? played.find((one) => one.hand === null))?.id;
  const [R, L] = [of('R'), of('L')];
  return R === undefined || L === undefined ? null : { R, L };
}
