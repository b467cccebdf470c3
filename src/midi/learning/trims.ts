import type { Rig } from '../../sessions/types';
import type { Hand } from '../../stroke';
import type { Db } from '../../units';
import { asking, levelsGiven, type Answers, type Asked } from './asked-strokes';
import { halfWidth, weightedMeans } from './cell-means';

/** Strokes of the one hand on each surface. */
const STROKES = 16;

/**
 * Asks for strokes of one hand, all at one height, on each of several surfaces. Go on with `nextAsked(rig)`.
 * @param surfaces ids
 */
export function trimsAsked(surfaces: readonly string[], hand: Hand): Answers<Asked> {
  return asking(surfaces.map((surface) => ({ surface, hand, strokes: STROKES })));
}

/** Trim of a surface, set against the mean of all that were struck. */
export interface SurfaceTrim {
  readonly surface: string;
  readonly trimDb: Db;
  /** Half the 90 % interval of the trim. */
  readonly leftDb: Db;
}

/** Trims that make the same stroke read the same everywhere. @returns undefined until all was struck, or of one surface */
export function trimsFound(state: Answers<Asked>): readonly SurfaceTrim[] | undefined {
  const ids = state.asked.map(({ surface }) => surface);
  if (state.at < state.asked.length || ids.length < 2) return undefined;
  const levels = ids.map((id) => levelsGiven(state, ({ surface }) => surface === id));
  const trims = ids.map((surface, index) => {
    const against = weightedMeans(
      levels.map((values, other) => ({ values, weight: (other === index ? 1 : 0) - 1 / ids.length })),
    );
    return against && { surface, trimDb: -against.value, leftDb: halfWidth(against) };
  });
  return trims.every((trim) => trim !== undefined) ? trims : undefined;
}

/** The rig with these trims in place of those that the surfaces had. */
export function rigWithTrims(rig: Rig, trims: readonly SurfaceTrim[]): Rig {
  return {
    ...rig,
    surfaces: rig.surfaces.map((surface) => {
      const trim = trims.find((one) => one.surface === surface.id);
      if (trim === undefined) return surface;
      return { ...surface, trimDb: trim.trimDb, trimmed: true, trimLeftDb: trim.leftDb };
    }),
  };
}
