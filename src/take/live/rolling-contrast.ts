import type { Db } from '../../units';

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
  if (accents.length === 0 || softs.length === 0) return null;
  return middle(accents) - middle(softs);
}

function middle(levels: readonly Db[]): Db {
  const half = levels.length >> 1;
  return levels.length % 2 === 1 ? levels[half] : (levels[half - 1] + levels[half]) / 2;
}

function placeOf(levels: readonly Db[], level: Db): number {
  let low = 0;
  let high = levels.length;
  while (low < high) {
    const centre = (low + high) >> 1;
    if (levels[centre] < level) low = centre + 1;
    else high = centre;
  }
  return low;
}
