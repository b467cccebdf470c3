import type { Settings } from '../../settings';
import type { Ms } from '../../units';
import { medianInPlace } from '../../ordered';
import type { AlignStroke } from '../types';

/** Strokes that came twice: indices among the strokes given, and how long after (median). */
export interface Doubles {
  readonly strokes: readonly number[];
  readonly ms: Ms;
  readonly share: number;
}

/** What is known of slots: whether graces are due there, and whether one is due and no stroke lies near it. */
interface Neighbourhood {
  readonly isGraced: (slot: number) => boolean;
  readonly isEmpty: (slot: number) => boolean;
}

/**
 * **Came twice**: strokes within min(60 ms, half the gap) after a kept one of their surface, not over 3 dB louder, whose
 * nearest slot has another stroke too, and no slot beside it is empty. Told from 2 of them and 1 % of strokes on, up to 35 %.
 * @param strokes none of them echo-like
 * @param nearest for each stroke the slot it lies nearest to; @param at what is known of slots
 * @returns undefined where none are told
 */
export function doublesOf(
  strokes: readonly AlignStroke[],
  nearest: ArrayLike<number>,
  gapMs: Ms,
  at: Neighbourhood,
  settings: Settings,
): Doubles | undefined {
  const reachMs = Math.min(settings['course.doubleMs'], settings['course.doubleGaps'] * gapMs);
  const kept = new Map<string | undefined, number>();
  const found: number[] = [];
  const afterMs: Ms[] = [];
  // Two strokes crowd at one slot where one of them was for the slot beside it.
  const isCrowded = (slot: number): boolean => at.isEmpty(slot - 1) || at.isEmpty(slot + 1);
  strokes.forEach((stroke, i) => {
    const before = kept.get(stroke.surface);
    if (before !== undefined) {
      const late = stroke.atMs - strokes[before].atMs;
      const isLouder = stroke.levelDb > strokes[before].levelDb + settings['course.doubleDb'];
      const slot = nearest[i];
      const isTaken = slot === nearest[i - 1] || (i + 1 < strokes.length && slot === nearest[i + 1]);
      if (late < reachMs && !isLouder && isTaken && !at.isGraced(slot) && !isCrowded(slot)) {
        found.push(i);
        afterMs.push(late);
        return;
      }
    }
    kept.set(stroke.surface, i);
  });
  const share = found.length / strokes.length;
  const areFound = found.length >= 2 && share >= settings['course.doublesFrom'];
  if (!areFound || share > settings['course.doublesMost']) return undefined;
  return { strokes: found, share, ms: medianInPlace(Float64Array.from(afterMs)) ?? 0 };
}
