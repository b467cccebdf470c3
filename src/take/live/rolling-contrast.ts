import type { Db } from '../../units';
import { countWhile, middleOf } from '../../ordered';

/** Levels in order, so that their median is at hand. Written to. */
type Levels = Db[];

/** Accents and soft strokes of a window that moves on; written to. */
export interface RollingContrast {
  readonly accents: Levels;
  readonly softs: Levels;
}

export const rollingContrast = (): RollingContrast => ({ accents: [], softs: [] });

export function enter(levels: Levels, level: Db): void {
  levels.splice(placeOf(levels, level), 0, level);
}

/** Takes one such level out again. */
export function leave(levels: Levels, level: Db): void {
  const place = placeOf(levels, level);
  if (levels[place] === level) levels.splice(place, 1);
}

/** Median of the accents less median of the soft strokes, in dB; null while there is none of either. */
export function contrastOf({ accents, softs }: RollingContrast): Db | null {
  const [accent, soft] = [middleOf(accents), middleOf(softs)];
  return accent === undefined || soft === undefined ? null : accent - soft;
}

function placeOf(levels: readonly Db[], level: Db): number {
  return countWhile(levels.length, (index) => levels[index] < level);
}
