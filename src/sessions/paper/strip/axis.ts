import type { HeightLines } from '../../../grading/evidence/heights';
import type { Settings } from '../../../settings';
import type { Db } from '../../../units';

/** The three lines of the picture, in dB: the rig's own heights, or the defaults of the settings. */
export type { HeightLines } from '../../../grading/evidence/heights';

/** Space under *low* and over *full*, in dB: softer and louder strokes than that stand on the edge. */
const UNDER_LOW_DB = 12;
const OVER_FULL_DB = 4;

/** Heights of a rig that has learned none. */
export function linesOf(settings: Settings): HeightLines {
  return { low: settings['heights.low'], half: settings['heights.half'], full: settings['heights.full'] };
}

/**
 * Where a level stands in the picture: 0 at the bottom, 1 at the top. *Half* is always at 0.5, so that the soft half
 * has half the space; straight on either side of it, from 12 dB under *low* to 4 dB over *full*; held at the edges.
 * Source: the look ("the soft half given half the room"); the space beyond the lines is our choice.
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
