import type { Slot } from '../../exercises/types';
import type { HeightLines } from '../../grading/evidence/heights';
import { bandContext, softLevels, type BandContext } from '../../grading/facts/level-bands';
import type { Settings } from '../../settings';
import type { Hand } from '../../stroke';
import type { Db } from '../../units';
import type { LiveState } from '../types';

/**
 * What the bands of a running take depend on: each hand's running median of soft strokes, over the passes that are
 * shown. Soft strokes on a wrong drum or by a wrong hand are left out; the bar's dynamics are taken off.
 * @param slots those of a cycle
 */
export function liveBandContext(
  live: Pick<LiveState, 'passes'> | null,
  slots: readonly Slot[],
  settings: Settings,
  learned?: HeightLines,
): BandContext {
  const kinds = new Set(slots.map(({ kind }) => kind));
  const before = bandContext(settings, kinds.has('tap') && kinds.has('ghost'), learned);
  if (live === null) return before;
  const levels: Record<Hand, Db[]> = { R: [], L: [] };
  for (const { index, kind, hand, shiftDb } of slots) {
    if (kind === 'accent') continue;
    for (const pass of live.passes[index % live.passes.length] ?? []) {
      if (pass.levelDb === null || pass.wrongHand || pass.wrongSurface === true) continue;
      levels[hand].push(pass.levelDb - shiftDb);
    }
  }
  return { ...before, ...softLevels(levels) };
}
