import { nextStrike } from '../../midi/learning/surfaces';
import { surfaceFinder } from '../../midi/rig';
import type { Rig } from '../../sessions/types';
import { otherHand, type RawHit } from '../../stroke';
import type { Ms } from '../../units';
import type { Sitting } from '../state';
import { nextStruck } from '../struck-hands';
import { surfacesNow, withRigging, withSurfaces, withTask } from './changes';
import { surfaceAsked, withHit } from './progress';
import type { RigTask } from './state';
import { beginning, learning } from './steps';
import { tapped } from './taps';

/** Strikes within this time of the last of a step are the player going on with it, no command. */
const SILENCE_MS: Ms = 1200;
/** A strike this loud on a note of no surface is meant to be one. Common practice. */
const MEANT_VELOCITY = 25;

/** What a strike is taken for: a surface, a hand, a stroke that was asked for, or part of a command. */
export function atHit(sitting: Sitting, hit: RawHit, newId: string): Sitting {
  const { rigging, rig } = sitting;
  const { task } = rigging;
  if (rigging.unheard.includes(hit.port) || rigging.uncertain.length > 0) return sitting;
  const surface = rig === null ? null : (surfaceFinder(rig)(hit)?.id ?? null);
  switch (task.kind) {
    case 'surfaces':
      return withSurfaces(sitting, nextStrike(surfacesNow(sitting), hit), newId);
    case 'rest':
    case 'between':
    case 'delays found':
      // A new thing that is struck on purpose is a new surface.
      if (surface === null && task.kind === 'rest' && hit.velocity >= MEANT_VELOCITY)
        return withNewSurface(sitting, hit, newId);
      if (task.kind === 'between' && hit.atMs - task.quietFromMs < SILENCE_MS)
        return withTask(sitting, { ...task, quietFromMs: hit.atMs });
      return withRigging(sitting, { taps: tapped(rigging.taps, hit, surface) });
    case 'hands':
      return surface === null && hit.velocity >= MEANT_VELOCITY
        ? withNewSurface(sitting, hit, newId)
        : atHandStrike(sitting, task, hit, surface);
    default: {
      if (rig === null) return sitting;
      const asked = surfaceAsked(task);
      const elsewhere = asked !== null && surface !== asked;
      const taps = elsewhere ? tapped(rigging.taps, hit, surface) : asked === surface ? null : rigging.taps;
      return learning(withRigging(sitting, { taps }), withHit(task, rig, hit));
    }
  }
}

/** The surfaces are asked for again, this one first. */
function withNewSurface(sitting: Sitting, hit: RawHit, newId: string): Sitting {
  return withSurfaces(beginning(sitting, 'surfaces'), nextStrike(surfacesNow(sitting), hit), newId);
}

/** Of the two strikes: where they fell on two surfaces each is its hand's, on one either hand's. */
function atHandStrike(
  sitting: Sitting,
  task: RigTask & { kind: 'hands' },
  hit: RawHit,
  surface: string | null,
): Sitting {
  const { rig } = sitting;
  const isHands = rig?.surfaces.some(({ id, foot }) => id === surface && foot === undefined) === true;
  if (rig === null || !isHands || hit.velocity < MEANT_VELOCITY) return sitting;
  const strikes = nextStruck(task.strikes, hit);
  const { first, second, firstHand } = strikes;
  if (first === null || second === null) return withTask(sitting, { ...task, strikes });
  const surfaceOf = surfaceFinder(rig);
  const [one, other] = [surfaceOf(first)?.id, surfaceOf(second)?.id];
  const handOf = (id: string, before: Rig['surfaces'][number]['hand']) => {
    if (one === other) return id === one ? null : before;
    return id === one ? firstHand : id === other ? otherHand(firstHand) : before;
  };
  const surfaces = rig.surfaces.map((each) => ({ ...each, hand: handOf(each.id, each.hand) }));
  return beginning({ ...sitting, rig: { ...rig, surfaces } }, 'heights');
}
