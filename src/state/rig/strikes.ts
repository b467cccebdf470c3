import { nextStrike } from '../../midi/learning/surfaces';
import { surfaceFinder } from '../../midi/rig';
import type { Rig } from '../../sessions/types';
import { otherHand, type RawHit } from '../../stroke';
import type { Ms } from '../../units';
import type { RigTask } from './state';
import type { State } from '../state';
import { beginning, learning } from './steps';
import { nextStruck } from '../struck-hands';
import { surfaceAsked, withHit } from './progress';
import { surfacesNow, withRigging, withSurfaces, withTask } from './changes';
import { tapped } from './taps';

/** Strikes within this time of the last of a step are the player going on with it, no command. */
const SILENCE_MS: Ms = 1200;
/** A strike this loud on a note of no surface is meant to be one. Common practice. */
const MEANT_VELOCITY = 25;

/** What a strike is taken for: a surface, a hand, a stroke that was asked for, or part of a command. */
export function atHit(state: State, hit: RawHit, newId: string): State {
  const { rigging, rig } = state;
  const { task } = rigging;
  if (rigging.ignoredPorts.includes(hit.port) || rigging.uncertain.length > 0) return state;
  const surface = rig === null ? null : (surfaceFinder(rig)(hit)?.id ?? null);
  switch (task.kind) {
    case 'surfaces':
      return withSurfaces(state, nextStrike(surfacesNow(state), hit), newId);
    case 'rest':
    case 'between':
    case 'delays found':
      // A new thing that is struck on purpose is a new surface.
      if (surface === null && task.kind === 'rest' && hit.velocity >= MEANT_VELOCITY)
        return withNewSurface(state, hit, newId);
      if (task.kind === 'between' && hit.atMs - task.quietFromMs < SILENCE_MS)
        return withTask(state, { ...task, quietFromMs: hit.atMs });
      return withRigging(state, { taps: tapped(rigging.taps, hit, surface) });
    case 'hands':
      return surface === null && hit.velocity >= MEANT_VELOCITY
        ? withNewSurface(state, hit, newId)
        : atHandStrike(state, task, hit, surface);
    default: {
      if (rig === null) return state;
      const asked = surfaceAsked(task);
      const elsewhere = asked !== null && surface !== asked;
      const taps = elsewhere ? tapped(rigging.taps, hit, surface) : asked === surface ? null : rigging.taps;
      return learning(withRigging(state, { taps }), withHit(task, rig, hit));
    }
  }
}

/** The surfaces are asked for again, this one first. */
function withNewSurface(state: State, hit: RawHit, newId: string): State {
  return withSurfaces(beginning(state, 'surfaces'), nextStrike(surfacesNow(state), hit), newId);
}

/** Of the two strikes: where they fell on two surfaces each is its hand's, on one either hand's. */
function atHandStrike(
  state: State,
  task: RigTask & { kind: 'hands' },
  hit: RawHit,
  surface: string | null,
): State {
  const { rig } = state;
  const isHands = rig?.surfaces.some(({ id, foot }) => id === surface && foot === undefined) === true;
  if (rig === null || !isHands || hit.velocity < MEANT_VELOCITY) return state;
  const strikes = nextStruck(task.strikes, hit);
  const { first, second, firstHand } = strikes;
  if (first === null || second === null) return withTask(state, { ...task, strikes });
  const surfaceOf = surfaceFinder(rig);
  const [one, other] = [surfaceOf(first)?.id, surfaceOf(second)?.id];
  const handOf = (id: string, before: Rig['surfaces'][number]['hand']) => {
    if (one === other) return id === one ? null : before;
    return id === one ? firstHand : id === other ? otherHand(firstHand) : before;
  };
  const surfaces = rig.surfaces.map((each) => ({ ...each, hand: handOf(each.id, each.hand) }));
  return beginning({ ...state, rig: { ...rig, surfaces } }, 'heights');
}
