import {
  beatAt,
  FIRST_STROKES,
  firstBeatMs,
  nextTime,
  notBegun,
  beatGridOf,
  timeWindows,
} from '../alignment/free-time';
import type { FirstTempo, OwnTime, BeatGrid } from '../alignment/free-time';
import { onsetsOf } from '../alignment/onsets';
import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import type { Stroke } from '../stroke';
import { bpmOfBeat, type Ms } from '../units';
import { leadMsOf } from './own-time';
import type { LiveTime } from './types';

/** Some of the strokes as a time. */
interface Reading {
  readonly own: OwnTime;
  /** When the first strokes came, and what they tell of the tempo. */
  readonly firstMs: readonly Ms[];
  readonly firstTempo: FirstTempo;
  /** Beat length over the first sixteen slots; null before. */
  readonly beatAtFirstMs: Ms | null;
}

/** The player's time in a running take without a click. */
export interface FreeRun {
  /** Without strokes that look like a pad's echo, and with them: at a fast tempo they may be ghost notes. */
  readonly plain: Reading;
  readonly all: Reading;
  /** The last time of the grid that was given out: it never runs back. */
  readonly lastMs: Ms;
  readonly time: LiveTime;
}

/** A step of it with each stroke and tick. */
export interface FreeSteps {
  readonly start: FreeRun;
  /** After a stroke: the stroke comes back at its time in the grid; null where it is none, as it came where it is of the feet. */
  struck(
    run: FreeRun,
    stroke: Stroke | null,
    ofFeet: ReadonlySet<string>,
  ): { readonly run: FreeRun; readonly stroke: Stroke | null };
  /** After time went by: `lastMs` is that time in the grid. Null before the first stroke. */
  passed(run: FreeRun, atMs: Ms): FreeRun | null;
}

const BPM_FROM = 4;
const WHOLE_LINE = 16;

/**
 * Follows a player without a click: strokes and ticks are set against a grid at a steady tempo as if the player had kept
 * to it, so that all that follows a click follows free time too.
 * @param grid from 0 ms, at a steady tempo
 * @param moving true where the tempo is meant to move
 */
export function freeSteps(grid: Grid, settings: Settings, moving = false): FreeSteps {
  const beatMs = steadyBeatMs(grid);
  const beatGrid: BeatGrid = beatGridOf(
    onsetsOf(grid).grid,
    beatMs,
    leadMsOf(grid, settings),
    timeWindows(settings, moving),
  );
  const timeIn = (run: FreeRun, atMs: Ms): Ms =>
    run.time.line === null ? -Infinity : Math.max(run.lastMs, gridMs(run.time, beatMs, atMs));
  function withStroke(run: FreeRun, { atMs, echoLike }: Stroke): FreeRun {
    const all = read(beatGrid, run.all, atMs);
    const plain = echoLike ? run.plain : read(beatGrid, run.plain, atMs);
    const better = plain.own.misfit <= all.own.misfit ? plain : all;
    return { ...run, all, plain, time: liveTimeOf(better) };
  }

  const unread: Reading = {
    own: notBegun,
    firstMs: [],
    firstTempo: { beatMs, isKnown: false },
    beatAtFirstMs: null,
  };
  return {
    start: { plain: unread, all: unread, lastMs: -Infinity, time: liveTimeOf(unread) },
    struck(run, stroke, ofFeet) {
      if (stroke === null) return { run, stroke };
      const now = ofFeet.has(stroke.surface) ? run : withStroke(run, stroke);
      const lastMs = timeIn(now, stroke.atMs);
      return { run: { ...now, lastMs }, stroke: { ...stroke, atMs: lastMs } };
    },
    passed(run, atMs) {
      if (run.time.line === null) return null;
      return { ...run, lastMs: atMs === Infinity ? Infinity : timeIn(run, atMs) };
    },
  };
}

/** A reading after one more stroke. */
function read(beatGrid: BeatGrid, before: Reading, atMs: Ms): Reading {
  const first = before.firstMs.length >= FIRST_STROKES ? before : withFirst(beatGrid, before, atMs);
  const own = nextTime(beatGrid, first.own, atMs, first.firstTempo);
  const isWhole = own.slot + 1 >= WHOLE_LINE;
  const beatAtFirstMs = first.beatAtFirstMs ?? (isWhole ? (own.line?.beatMs ?? null) : null);
  return { ...first, own, beatAtFirstMs };
}

function withFirst(beatGrid: BeatGrid, reading: Reading, atMs: Ms): Reading {
  const { firstMs } = reading;
  const isLed = firstMs.length > 0 && atMs - firstMs[firstMs.length - 1] <= beatGrid.leadMs;
  const now = [...(isLed ? firstMs.slice(0, -1) : firstMs), atMs];
  const found = firstBeatMs(beatGrid, now);
  const firstTempo = found === undefined ? reading.firstTempo : { beatMs: found, isKnown: true };
  return { ...reading, firstMs: now, firstTempo };
}

function liveTimeOf({ own: { line, beats, slot }, beatAtFirstMs }: Reading): LiveTime {
  if (line === null || beats.length < BPM_FROM) return { line, bpm: null, fasterPercent: null };
  const isLater = beatAtFirstMs !== null && slot + 1 >= 2 * WHOLE_LINE;
  const fasterPercent = isLater ? 100 * (beatAtFirstMs / line.beatMs - 1) : null;
  return { line, bpm: bpmOfBeat(line.beatMs), fasterPercent };
}

/** A time as the grid of a take in free time has it: −Infinity before the first stroke. */
export function gridMs({ line }: Pick<LiveTime, 'line'>, beatMs: Ms, atMs: Ms): Ms {
  return line === null ? -Infinity : beatAt(line, atMs) * beatMs;
}

/** A beat of a grid at a steady tempo. */
export function steadyBeatMs({ bars: [first] }: Grid): Ms {
  return (first.endMs - first.startMs) / first.beats;
}
