import { countIn, type CountIn } from '../click/schedule';
import type { Grid, GridBar } from '../exercises/types';
import type { Ms } from '../units';
import type { Position } from './types';
import { countWhile } from '../ordered';

/**
 * Where the click stands at a moment: before the count-in (`untilMs` is the time left to it), in it, at a beat
 * of a bar of the grid, or after its last bar. Beats count from 0. Cheap enough for every frame.
 * @param count the take's count-in, where it is not the tempo's own
 * @param nowMs on the clock of the grid, which is the performance clock for a take with a click; −Infinity before the first
 *   stroke of one without
 */
export function positionAt(grid: Grid, nowMs: Ms, count: CountIn = countIn(grid)): Position {
  const { bars } = grid;
  if (nowMs === -Infinity) return { phase: 'first stroke' };
  const downbeatMs = bars[0].startMs;
  if (nowMs < downbeatMs) {
    const { beats, sayBeats, beatMs, lengthMs } = count;
    const intoMs = nowMs - (downbeatMs - lengthMs);
    if (intoMs < 0) return { phase: 'before', untilMs: -intoMs };
    const beat = Math.min(beats + sayBeats - 1, Math.floor(intoMs / beatMs));
    if (beat >= beats) return { phase: 'say', beat: beat - beats, beats: sayBeats };
    return { phase: 'count-in', beat, beats };
  }
  if (nowMs >= bars[bars.length - 1].endMs) return { phase: 'after' };
  const bar = barAt(bars, nowMs);
  const { index, barInCycle, cycle } = bar;
  return { phase: 'playing', bar: index, barInCycle, cycle, beat: lastAtOrBefore(bar.beatsMs, nowMs) };
}

/** Bars of a grid that have begun at a moment. */
export function barsBegun({ bars }: Grid, nowMs: Ms): number {
  return nowMs < bars[0].startMs ? 0 : barAt(bars, nowMs).index + 1;
}

/** Whether two positions show the same: within a beat, and before the count-in, nothing changes. */
export function samePosition(a: Position, b: Position): boolean {
  if (a.phase === 'count-in') return b.phase === 'count-in' && a.beat === b.beat;
  if (a.phase === 'say') return b.phase === 'say' && a.beat === b.beat;
  if (a.phase === 'playing') return b.phase === 'playing' && a.beat === b.beat && a.bar === b.bar;
  return a.phase === b.phase;
}

function barAt(bars: readonly GridBar[], nowMs: Ms): GridBar {
  return bars[Math.max(0, countWhile(bars.length, (index) => bars[index].startMs <= nowMs) - 1)];
}

function lastAtOrBefore(timesMs: readonly Ms[], nowMs: Ms): number {
  let last = 0;
  while (last + 1 < timesMs.length && timesMs[last + 1] <= nowMs) last += 1;
  return last;
}
