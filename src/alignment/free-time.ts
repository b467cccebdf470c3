import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import type { Ms } from '../units';
import { medianInPlace } from '../ordered';

/** Where a phrase's slots lie, counted in beats from its first bar; what two strokes share is one slot. */
export interface BeatGrid {
  /** In beats, rising. */
  readonly at: Float64Array;
  /** 1 where an accent is due. */
  readonly accent: Uint8Array;
  /**
   * A stroke that comes so soon after the one that answered a slot is that slot's own, and what came before led to it:
   * graces, the first of a unison. 0 where the phrase has none.
   */
  readonly leadMs: Ms;
  readonly windows: TimeWindows;
}

/** How a line through strokes is laid. */
interface LineWindows {
  /** Residuals over so many median absolute deviations are left out, */
  readonly mostMads: number;
  /** but of fewer points none. */
  readonly fewestForMad: number;
}

/** How a player's time is followed: the `free.` settings. */
interface TimeWindows extends LineWindows {
  /**
   * Slots the line that foretells goes through, and slots either side that set a beat afterwards. Where the tempo is meant
   * to move by up to 8 % a bar, as in open–close–open, a line through sixteen would lie up to a third of a gap off; with
   * fewer, 99 of 100 strokes are in their slots.
   */
  readonly ahead: number;
  readonly around: number;
  /** A stroke further from every slot than this share of the gap to the next one answers none. */
  readonly reachGaps: number;
  /** Gaps from the line over which a stroke does not bend it: 0.35 and 0.5 lose more. */
  readonly doubtfulGaps: number;
  /** Slots in a row that the first tempo counts for. */
  readonly firstTempoSlots: number;
  /** A beginning other than the plain one must be better by more than this. */
  readonly unusual: number;
}

export function timeWindows(settings: Settings, moving: boolean): TimeWindows {
  return {
    ahead: settings[moving ? 'free.slotsAheadMoving' : 'free.slotsOfLine'],
    around: settings[moving ? 'free.slotsAroundMoving' : 'free.slotsOfLine'],
    mostMads: settings['free.mostMads'],
    fewestForMad: settings['free.fewestForMad'],
    reachGaps: settings['free.reachGaps'],
    doubtfulGaps: settings['free.doubtfulGaps'],
    firstTempoSlots: settings['free.toldSlots'],
    unusual: settings['free.unusualBeginning'],
  };
}

/** The tempo at one time: beat `atBeat` is at `atMs`, the next `beatMs` later. */
export interface TimeLine {
  readonly atBeat: number;
  readonly atMs: Ms;
  readonly beatMs: Ms;
}

/**
 * The time a player keeps without a click, a stroke at a time: the slots last answered, and the line through them that
 * foretells the next.
 */
export interface OwnTime {
  /** Last slot answered; −1 before the first stroke. */
  readonly slot: number;
  /** The slots last answered, in beats and in ms, oldest first; 16 at most. */
  readonly beats: readonly number[];
  readonly times: readonly Ms[];
  /** Null before the first stroke. */
  readonly line: TimeLine | null;
  /**
   * What does not fit so far: 1 for each slot passed over and each stroke that answered none, and for one that did (2d)²,
   * d its deviation from the line in gaps: half a gap off is as bad as not at all.
   */
  readonly misfit: number;
}

export const notBegun: OwnTime = { slot: -1, beats: [], times: [], line: null, misfit: 0 };

/** What is known of a player's tempo before all slots of a line are answered. */
export interface FirstTempo {
  readonly beatMs: Ms;
  /** False where it is a guess: then it counts as long as one stroke alone tells nothing. */
  readonly isKnown: boolean;
}

/** Where no tempo is known so many strokes answer the first slots in turn. */
const IN_TURN = 4;

/**
 * @param grid one slot an onset (`onsetsOf`), at a steady tempo from 0 ms on, `beatMs` a beat
 */
export function beatGridOf({ slots }: Grid, beatMs: Ms, leadMs: Ms, windows: TimeWindows): BeatGrid {
  return {
    at: Float64Array.from(slots, ({ atMs }) => atMs / beatMs),
    accent: Uint8Array.from(slots, ({ kind }) => Number(kind === 'accent')),
    leadMs,
    windows,
  };
}

/**
 * The time after a stroke. While no tempo is known the first four strokes answer the first four slots; from then on a
 * stroke answers the slot nearest to where the line foretells it, and none where that is half a gap away or answered
 * already.
 * @param firstTempo what is known of the tempo
 * @returns `times` is the very array it was where the stroke answers no slot
 */
export function nextTime(beatGrid: BeatGrid, state: OwnTime, atMs: Ms, firstTempo: FirstTempo): OwnTime {
  const { slot, times } = state;
  const last = times.length - 1;
  if (last >= 0 && atMs - times[last] <= beatGrid.leadMs) return moved(beatGrid, state, atMs, firstTempo);
  const next = slotFor(beatGrid, state, atMs, firstTempo);
  return next === slot
    ? { ...state, misfit: state.misfit + 1 }
    : answered(beatGrid, state, next, atMs, firstTempo);
}

/** The time after a stroke that answers a slot it is known to answer. */
export function answered(
  beatGrid: BeatGrid,
  state: OwnTime,
  slot: number,
  atMs: Ms,
  firstTempo: FirstTempo,
): OwnTime {
  const off = offLine(beatGrid, state, slot, atMs, firstTempo);
  const misfit = state.misfit + slot - state.slot - 1 + 4 * off * off;
  // One that may be its neighbour's as well tells nothing of the time.
  if (Math.abs(off) > beatGrid.windows.doubtfulGaps)
    return { ...state, slot, misfit, times: [...state.times] };
  const beats = [...state.beats, beatGrid.at[slot]].slice(-beatGrid.windows.ahead);
  const times = [...state.times, atMs].slice(-beatGrid.windows.ahead);
  return { slot, beats, times, line: lineOf(beatGrid, beats, times, firstTempo), misfit };
}

/** How far a stroke lies from the line as it was, in gaps; 0 while that is not to be trusted. */
function offLine(
  { at }: BeatGrid,
  { times, line }: OwnTime,
  slot: number,
  atMs: Ms,
  { isKnown }: FirstTempo,
): number {
  if (line === null || slot === 0 || (times.length < IN_TURN && !isKnown)) return 0;
  return (beatAt(line, atMs) - at[slot]) / (at[slot] - at[slot - 1]);
}

/** The last slot is answered by this stroke, not by the one before. */
function moved(beatGrid: BeatGrid, state: OwnTime, atMs: Ms, firstTempo: FirstTempo): OwnTime {
  const { beats } = state;
  const now = [...state.times.slice(0, -1), atMs];
  return { ...state, times: now, line: lineOf(beatGrid, beats, now, firstTempo) };
}

/** Until its slots are all answered a line leans on the tempo that is known, as if that were so many slots. */
function lineOf(
  { at, windows }: BeatGrid,
  beats: readonly number[],
  times: readonly Ms[],
  { beatMs, isKnown }: FirstTempo,
): TimeLine {
  const one = { atBeat: beats[beats.length - 1], atMs: times[times.length - 1], beatMs };
  const { ahead, firstTempoSlots } = windows;
  if (!isKnown || times.length >= ahead) return lineThrough(beats, times, windows) ?? one;
  const gap = (at[at.length - 1] - at[0]) / (at.length - 1);
  const weight = (gap * gap * firstTempoSlots * (firstTempoSlots * firstTempoSlots - 1)) / 12;
  return lineThrough(beats, times, windows, { beatMs, weight }) ?? one;
}

function slotFor(
  { at, windows }: BeatGrid,
  { slot, times, line }: OwnTime,
  atMs: Ms,
  { isKnown }: FirstTempo,
): number {
  if (line === null || (times.length < IN_TURN && !isKnown)) return Math.min(slot + 1, at.length - 1);
  const beat = beatAt(line, atMs);
  let nearest = slot + 1;
  while (nearest + 1 < at.length && at[nearest + 1] - beat <= beat - at[nearest]) nearest += 1;
  if (nearest >= at.length) return slot;
  const gap = at[nearest] - at[nearest - 1];
  const after = nearest + 1 < at.length ? at[nearest + 1] - at[nearest] : gap;
  return Math.abs(beat - at[nearest]) < windows.reachGaps * Math.min(gap, after) ? nearest : slot;
}

/**
 * The beat length of a player's first strokes: the median of what strokes so many apart make of it, each stroke taken for
 * the next slot. A stroke left out or added spoils few of them, the nearer they are; uneven strokes spoil it less, the farther.
 * @param times of the first strokes, in order
 * @returns undefined of fewer than eight
 */
export function firstBeatMs({ at }: BeatGrid, times: readonly Ms[], apart = APART): Ms | undefined {
  if (times.length < FEWEST_FIRST || at.length < times.length) return undefined;
  const lengths = Float64Array.from(
    { length: times.length - apart },
    (_, index) => (times[index + apart] - times[index]) / (at[index + apart] - at[index]),
  );
  return medianInPlace(lengths);
}

const APART = 2;
const FEWEST_FIRST = 8;
/** Strokes that are first ones. */
export const FIRST_STROKES = 24;

/** The beat a line has at a time, with its fraction. */
export const beatAt = ({ atBeat, atMs, beatMs }: TimeLine, timeMs: Ms): number =>
  atBeat + (timeMs - atMs) / beatMs;

/** When a line has a beat. */
export const timeOf = ({ atBeat, atMs, beatMs }: TimeLine, beat: number): Ms =>
  atMs + (beat - atBeat) * beatMs;

/** A beat length that counts as much as slots spread so far: a sum of squares, in beats. */
interface Prior {
  readonly beatMs: Ms;
  readonly weight: number;
}

const noPrior: Prior = { beatMs: 0, weight: 0 };

/**
 * The least-squares line through slots answered; then once more without those over 3 median absolute deviations from it.
 * @returns undefined under two slots, where no tempo is given
 */
export function lineThrough(
  beats: ArrayLike<number>,
  times: ArrayLike<Ms>,
  { mostMads, fewestForMad }: LineWindows,
  prior: Prior = noPrior,
): TimeLine | undefined {
  const all = Array.from({ length: beats.length }, (_, index) => index);
  const first = leastSquares(beats, times, all, prior);
  if (first === undefined || all.length < fewestForMad) return first;
  const off = Float64Array.from(all, (index) => Math.abs(times[index] - timeOf(first, beats[index])));
  const most = mostMads * (medianInPlace(off.slice()) ?? 0);
  const near = all.filter((index) => off[index] <= most);
  return near.length === all.length ? first : (leastSquares(beats, times, near, prior) ?? first);
}

function leastSquares(
  beats: ArrayLike<number>,
  times: ArrayLike<Ms>,
  of: readonly number[],
  prior: Prior,
): TimeLine | undefined {
  let [beat, time] = [0, 0];
  for (const index of of) {
    beat += beats[index] / of.length;
    time += times[index] / of.length;
  }
  let [spread, together] = [prior.weight, prior.weight * prior.beatMs];
  for (const index of of) {
    spread += (beats[index] - beat) * (beats[index] - beat);
    together += (beats[index] - beat) * (times[index] - time);
  }
  const beatMs = together / spread;
  return beatMs > 0 && Number.isFinite(beatMs) ? { atBeat: beat, atMs: time, beatMs } : undefined;
}
