import type { Kind } from '../../exercises/types';
import { accentHeightLimit, softHeightLimit, type HeightLines } from '../../grading/heights';
import type { Settings } from '../../settings';
import type { Db } from '../../units';

/** The three lines of the picture, in dB: the rig's own heights, or the defaults of the settings. */
export type { HeightLines } from '../../grading/heights';

/** Room under *low* and over *full*, in dB: softer and louder strokes than that stand on the edge. */
const UNDER_LOW_DB = 12;
const OVER_FULL_DB = 4;

/** Heights of a rig that has learned none. */
export function linesOf(settings: Settings): HeightLines {
  return { low: settings['heights.low'], half: settings['heights.half'], full: settings['heights.full'] };
}

/**
 * Where a level stands in the picture: 0 at the bottom, 1 at the top. *Half* is always at 0.5, so that the soft half
 * has half the room; straight on either side of it, from 12 dB under *low* to 4 dB over *full*; held at the edges.
 * Source: the look ("the soft half given half the room"); the room beyond the lines is our choice.
 * @example axisY(-14, { low: -24, half: -14, full: -4 }) // => 0.5
 */
export function axisY(level: Db, lines: HeightLines): number {
  const bottom = lines.low - UNDER_LOW_DB;
  const top = lines.full + OVER_FULL_DB;
  const y =
    level <= lines.half
      ? (0.5 * (level - bottom)) / (lines.half - bottom)
      : 0.5 + (0.5 * (level - lines.half)) / (top - lines.half);
  return Math.min(1, Math.max(0, y));
}

/** Where strokes of a kind should land, in dB; null is open: as soft, or as loud, as one likes. */
export interface LevelBand {
  readonly fromDb: Db | null;
  readonly toDb: Db | null;
}

/**
 * The band of a kind of stroke, in dB. So that picture and verdict agree:
 * a soft stroke is in its band exactly where `softness` holds for it; an accent where it clears, by the `contrast`
 * that holds, soft strokes half-way between the ideal and the limit of `softness` (−8 dB under working limits).
 * A contrast depends on the soft strokes really played, so a single line can't be exact for accents.
 * With the rig's learned heights it is exact for both: soft strokes up to half-way from low to half, accents from half-way
 * from half to full. Where a phrase has ghosts beside taps, softness is judged on the ghosts, and the taps are due `ghostContrast` above.
 * @example bandOf('tap', settingsOf('working'), false) // => { fromDb: null, toDb: -16 }
 * @example bandOf('accent', settingsOf('working'), false) // => { fromDb: -8, toDb: null }
 * @example bandOf('accent', settingsOf('working'), false, { low: -30, half: -16, full: -6 }) // => { fromDb: -11, toDb: null }
 * @param learned the rig's heights, where it has learned them; never the defaults
 */
export function bandOf(
  kind: Kind,
  settings: Settings,
  tapsBesideGhosts: boolean,
  learned?: HeightLines,
): LevelBand {
  const { ideal: softest, holds: loudestSoft } =
    learned === undefined
      ? { ideal: settings['softness.ideal'], holds: settings['softness.holds'] }
      : softHeightLimit(learned);
  if (kind === 'accent') {
    if (learned !== undefined) return { fromDb: accentHeightLimit(learned).holds, toDb: null };
    return { fromDb: (softest + loudestSoft) / 2 + settings['contrast.holds'], toDb: null };
  }
  if (kind === 'tap' && tapsBesideGhosts) {
    const step = settings['ghostContrast.holds'];
    return { fromDb: softest + step, toDb: loudestSoft + step };
  }
  return { fromDb: null, toDb: loudestSoft };
}

/**
 * How far a level lies outside its band, in dB: positive above it, negative under it, 0 inside.
 * @example outsideDb(-12, { fromDb: null, toDb: -16 }) // => 4
 */
export function outsideDb(level: Db, band: LevelBand): Db {
  if (band.toDb !== null && level > band.toDb) return level - band.toDb;
  if (band.fromDb !== null && level < band.fromDb) return level - band.fromDb;
  return 0;
}
