import type { Grid, GridBar } from '../exercises/types';
import type { Bpm, Ms } from '../units';
import { bpmOfBeat } from '../units';
import type { ClickBeat } from './types';

/** Under this tempo one bar of count-in is too few beats to find the tempo by; common practice, no source. */
const SLOW_BPM: Bpm = 70;

/** The beats before the downbeat, in time order, from the length of the first bar's first beat. */
export interface CountIn {
  readonly bars: number;
  readonly beats: number;
  readonly beatMs: Ms;
  /** How long it takes: the downbeat must be at least this far away when the click starts. */
  readonly lengthMs: Ms;
}

/** The count-in of a grid: one bar like the first, two under 70 bpm. At 84 bpm in four that is four beats. */
export function countIn(grid: Grid): CountIn {
  const first = grid.bars[0];
  const beatMs = firstBeatMs(first);
  const bars = bpmOfBeat(beatMs) < SLOW_BPM ? 2 : 1;
  const beats = bars * first.beats;
  return { bars, beats, beatMs, lengthMs: beats * beatMs };
}

/**
 * Every click of a take in time order: the count-in, then each beat of each bar.
 * @param downbeatMs when the grid's first bar begins; the grid's own times only say how far apart the beats are
 */
export function clickBeats(grid: Grid, downbeatMs: Ms): readonly ClickBeat[] {
  const { beats, beatMs } = countIn(grid);
  const { beats: beatsPerBar, startMs } = grid.bars[0];
  const clicks: ClickBeat[] = [];
  for (let beat = 0; beat < beats; beat += 1) {
    clicks.push({ atMs: downbeatMs - (beats - beat) * beatMs, accent: beat % beatsPerBar === 0 });
  }
  for (const bar of grid.bars) {
    bar.beatsMs.forEach((beatAtMs, beat) => {
      clicks.push({ atMs: downbeatMs + (beatAtMs - startMs), accent: beat === 0 });
    });
  }
  return clicks;
}

/** What falls in [fromMs, toMs) of things in time order: asked for piece by piece, each comes exactly once. */
export function clicksIn<Due extends Timed>(due: readonly Due[], fromMs: Ms, toMs: Ms): readonly Due[] {
  return due.slice(firstFrom(due, fromMs), firstFrom(due, toMs));
}

function firstBeatMs(bar: GridBar): Ms {
  return (bar.beatsMs.length > 1 ? bar.beatsMs[1] : bar.endMs) - bar.startMs;
}

interface Timed {
  readonly atMs: Ms;
}

/** Index of the first one at or after a time. */
function firstFrom(clicks: readonly Timed[], atMs: Ms): number {
  let low = 0;
  let high = clicks.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (clicks[middle].atMs < atMs) low = middle + 1;
    else high = middle;
  }
  return low;
}
