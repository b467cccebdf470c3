import type { Ms } from '../../units';
import type { Settings } from '../../settings';
import type { Lattice } from './lattice';

/** A stretch of time in which the port was gone. */
export interface Absence {
  readonly fromMs: Ms;
  readonly toMs: Ms;
}

/** A stretch of strokes without a pause in it; `cable` where the port was gone before it. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly cable: boolean;
}

/**
 * **Pause**: no stroke for half a bar and 1000 ms beyond the longest rest due there, while slots were due; and each
 * absence of the port that slots were due in. What lies between pauses is a stretch of its own.
 * @param at times of the strokes, in order
 */
export function stretchesOf(
  lattice: Lattice,
  at: ArrayLike<Ms>,
  barMs: Ms,
  absences: readonly Absence[],
  settings: Settings,
): readonly Stretch[] {
  const longMs = Math.max(barMs * settings['course.pauseBars'], settings['course.pauseMs']);
  const due = lattice.at.filter((_, place) => lattice.slot[place] >= 0);
  const stretches: Stretch[] = [];
  let from = 0;
  let cable = false;
  let slot = 0;
  for (let i = 1; i < at.length; i += 1) {
    const [startMs, endMs] = [at[i - 1], at[i]];
    while (slot < due.length && due[slot] <= startMs) slot += 1;
    if (endMs - startMs <= longMs && absences.length === 0) continue;
    const gone = absences.some(({ fromMs, toMs }) => fromMs < endMs && toMs > startMs);
    const isLong = endMs - startMs > longMs + longestRest(due, slot, startMs, endMs);
    const isDue = slot < due.length && due[slot] < endMs - MARGIN * lattice.stepMs;
    if (!isDue || !(isLong || gone)) continue;
    stretches.push({ from, to: i, cable });
    from = i;
    cable = gone;
  }
  stretches.push({ from, to: at.length, cable });
  return stretches;
}

/** A slot is due between two strokes where it lies clear of the second. */
const MARGIN = 0.5;

/** The longest distance between slots that follow each other there, the slots next to it too. */
function longestRest(due: Float64Array, first: number, startMs: Ms, endMs: Ms): Ms {
  let longest = 0;
  for (let i = Math.max(1, first); i < due.length; i += 1) {
    longest = Math.max(longest, due[i] - due[i - 1]);
    if (due[i] >= endMs) break;
  }
  return Math.min(longest, endMs - startMs);
}

/** Whether so long a silence is a pause: before the first stroke, behind the last. */
export function isPause(silenceMs: Ms, barMs: Ms, gapMs: Ms, settings: Settings): boolean {
  return silenceMs > Math.max(barMs * settings['course.pauseBars'], settings['course.pauseMs']) + gapMs;
}
