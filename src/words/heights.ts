import type { Db } from '../units';
import { dB } from './numbers';

/** A player's own low, half and full strokes, dB re velocity 127. */
export interface Heights {
  readonly low: Db;
  readonly half: Db;
  readonly full: Db;
}

/** A level this near to a line, in parts of the way to the next, is at it. */
const AT_LINE = 0.15;

/**
 * Where a level stands, height first and dB second.
 * @example heightWords(-19, { low: -24, half: -14, full: -4 }) // => between low and half (−19.0 dB)
 * @example heightWords(-13, { low: -24, half: -14, full: -4 }) // => at half (−13.0 dB)
 * @example heightWords(-2, { low: -24, half: -14, full: -4 }) // => over full (−2.0 dB)
 */
export function heightWords(level: Db, lines: Heights): string {
  return `${placeOf(level, lines)} (${dB(level)})`;
}

function placeOf(level: Db, { low, half, full }: Heights): string {
  const [nearLow, nearFull] = [AT_LINE * (half - low), AT_LINE * (full - half)];
  if (level < low - nearLow) return 'under low';
  if (level <= low + nearLow) return 'at low';
  if (level < half - nearLow) return 'between low and half';
  if (level <= half + nearFull) return 'at half';
  if (level < full - nearFull) return 'between half and full';
  return level <= full + nearFull ? 'at full' : 'over full';
}

/** The aims, in words. */
export const softAimWords = ({ low, half }: Heights): string =>
  `half-way from low to half (${dB((low + half) / 2)}) or softer`;
export const accentAimWords = ({ half, full }: Heights): string =>
  `half-way from half to full (${dB((half + full) / 2)}) or louder`;
