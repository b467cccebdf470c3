import type { Rig } from '../../sessions/types';
import { levelDb, type Velocity } from '../../units';
import { asking, type Answers, type Asked } from './asked-strokes';

/** Strokes as soft as can be, on each surface of the hands. */
const STROKES = 12;

/** Asks for twelve strokes, softer and softer, on each surface. Go on with `nextAsked(rig)`. */
export function softestAsked(rig: Rig): Answers<Asked> {
  return asking(
    rig.surfaces
      .filter(({ foot }) => foot === undefined)
      .map(({ id, hand }): Asked => ({ surface: id, hand: hand ?? 'R', strokes: STROKES })),
  );
}

/** Two more strokes must be within this of the softest: one alone may be a chance. */
const NEAR_DB = 8;
/** The softest of strokes that were all louder than this says nothing of the threshold. */
const SOFT_VELOCITY = 30;

/**
 * The lowest velocity that arrives from a surface.
 * @returns undefined until its strokes were struck, or where they were not soft
 */
export function softestVelocity(state: Answers<Asked>, surface: string): Velocity | undefined {
  const index = state.asked.findIndex((one) => one.surface === surface);
  if (index < 0 || index >= state.at) return undefined;
  const ascending = [...state.given[index]].sort((a, b) => a - b);
  if (ascending.length < 3 || ascending[0] > SOFT_VELOCITY) return undefined;
  return levelDb(ascending[2]) - levelDb(ascending[0]) <= NEAR_DB ? ascending[0] : undefined;
}

/** The rig with the thresholds found. */
export function rigWithThresholds(rig: Rig, state: Answers<Asked>): Rig {
  return {
    ...rig,
    surfaces: rig.surfaces.map((surface) => {
      const thresholdVelocity = softestVelocity(state, surface.id);
      return thresholdVelocity === undefined ? surface : { ...surface, thresholdVelocity };
    }),
  };
}
