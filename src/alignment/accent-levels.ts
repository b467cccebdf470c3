import { square } from '../exact';
import { MAD_TO_SD, medianInPlace, select } from '../ordered';
import type { Settings } from '../settings';

/** Middles of accents and softs, and their pooled spread, in dB. */
export interface Levels {
  readonly accent: number;
  readonly soft: number;
  readonly spread: number;
}

/** Levels of both kinds when the loudest are the accents. @returns undefined where all are of one kind */
export function levelsFromLoudest(
  all: Float64Array,
  accents: number,
  settings: Settings,
): Levels | undefined {
  if (accents <= 0 || accents >= all.length) return undefined;
  const levels = all.slice();
  const softs = levels.length - accents;
  select(levels, levels.length, softs);
  return levelsOf(levels.slice(softs), accents, levels, softs, settings);
}

/** Medians of both, and 1.4826 × the median of all distances from the own median, at least 1.5 dB. */
export function levelsOf(
  accents: Float64Array,
  accentCount: number,
  softs: Float64Array,
  softCount: number,
  settings: Settings,
): Levels | undefined {
  const accent = medianInPlace(accents, accentCount);
  const soft = medianInPlace(softs, softCount);
  if (accent === undefined || soft === undefined) return undefined;
  const distances = new Float64Array(accentCount + softCount);
  for (let i = 0; i < accentCount; i++) distances[i] = Math.abs(accents[i] - accent);
  for (let i = 0; i < softCount; i++) distances[accentCount + i] = Math.abs(softs[i] - soft);
  const spread = MAD_TO_SD * (medianInPlace(distances) ?? 0);
  return { accent, soft, spread: Math.max(settings['slip.leastSpreadDb'], spread) };
}

/**
 * What a level says for an accent (+) or a soft stroke (−): ½·clip((A − S)(x − (A + S)/2)/σ², ±3), the evidence of
 * grading.md section 4a.
 * @returns a function of the level in dB
 */
export function accentEvidence(
  { accent, soft, spread }: Levels,
  settings: Settings,
): (levelDb: number) => number {
  const most = settings['slip.mostEvidence'];
  const middle = (accent + soft) / 2;
  const slope = (accent - soft) / square(spread);
  return (levelDb) => 0.5 * Math.max(-most, Math.min(most, slope * (levelDb - middle)));
}

/** Accents and softs stand far enough apart to be told by their levels. */
export function areApart({ accent, soft, spread }: Levels, settings: Settings): boolean {
  return (accent - soft) / spread >= settings['slip.leastSeparation'];
}
