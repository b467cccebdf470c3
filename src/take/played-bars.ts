import { graceReachMs } from '../alignment/graces';
import type { Grid, GridBar } from '../exercises/types';
import type { Settings } from '../settings';
import type { Ms } from '../units';
import { countWhile } from '../ordered';

/**
 * Whether a time, offset off, is of a bar that is played: strokes in bars to listen to or to count aloud are not judged.
 * A stroke is of the bar it falls in or comes half the smallest gap before; the graces of a bar's first stroke are of
 * that bar.
 */
export function playedBars(grid: Grid, settings: Settings): (timeMs: Ms) => boolean {
  const { bars, slots, smallestGapMs } = grid;
  if (bars.every((bar) => bar.role === 'play')) return () => true;
  const reachMs = graceReachMs(grid, settings);
  return (timeMs) => {
    const bar = barAt(bars, timeMs + smallestGapMs / 2);
    if (bar.role === 'play') return true;
    const next = bars[bar.index + 1];
    if (next === undefined || next.slots === 0) return false;
    const { atMs, graces } = slots[next.firstSlot];
    return graces.length > 0 && atMs - timeMs <= graces.length * reachMs;
  };
}

/** The bar a time falls in; before the first the first, after the last the last. */
function barAt(bars: readonly GridBar[], timeMs: Ms): GridBar {
  return bars[Math.max(0, countWhile(bars.length, (index) => bars[index].startMs <= timeMs) - 1)];
}
