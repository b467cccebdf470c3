import type { Settings } from '../../settings';

/** How much a pad's levels say. */
type Loudnesses = 'many' | 'few' | 'one';

/**
 * **Few velocities**: *one* where of 24 strokes or more 80 % have the same level; *few* where of 48 or more the four
 * commonest have 95 %. Levels of one surface; velocities are whole numbers, so equal levels are equal velocities.
 * @example loudnessesOf([0, 0, 0], settings) // 'many': too few strokes
 */
export function loudnessesOf(levels: readonly number[], settings: Settings): Loudnesses {
  const counts = new Map<number, number>();
  for (const level of levels) counts.set(level, (counts.get(level) ?? 0) + 1);
  const commonest = [...counts.values()].sort((a, b) => b - a);
  const share = (first: number): number =>
    commonest.slice(0, first).reduce((sum, count) => sum + count, 0) / levels.length;
  if (levels.length >= settings['course.oneStrokes'] && share(1) >= settings['course.oneShare']) return 'one';
  if (levels.length >= settings['course.fewStrokes'] && share(FEW) >= settings['course.fewShare'])
    return 'few';
  return 'many';
}

const FEW = 4;
