import type { Grid } from '../exercises/types';
import type { Ms } from '../units';
import { countWhile } from '../ordered';

/**
 * Whether a take has been silent for a number of bars: that many bars to play, whole and one after the other, went by
 * without a stroke. Bars to listen to or to count aloud don't count.
 * @param lastMs the last stroke; null before the first
 */
export function silentFor(grid: Grid, bars: number, lastMs: Ms | null, nowMs: Ms): boolean {
  const slackMs = grid.smallestGapMs / 2;
  const sinceMs = lastMs === null ? -Infinity : lastMs + slackMs;
  let silent = 0;
  for (let index = barAfter(grid, sinceMs); index < grid.bars.length; index += 1) {
    const bar = grid.bars[index];
    if (bar.endMs + slackMs > nowMs) return false;
    if (bar.role === 'play') silent += 1;
    if (silent >= bars) return true;
  }
  return false;
}

/** Index of the first bar that starts at or after a time. */
function barAfter({ bars }: Grid, atMs: Ms): number {
  return countWhile(bars.length, (index) => bars[index].startMs < atMs);
}
