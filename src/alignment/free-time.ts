import type { Grid } from '../exercises/types';
import type { Ms } from '../units';
import { medianInPlace } from './median';

/** Where a phrase's slots lie, counted in beats from its first bar; what two strokes share is one slot. */
export interface Score {
  /** In beats, rising. */
  readonly at: Float64Array;
  /** 1 where an accent is due. */
  readonly accent: Uint8Array;
  /**
   * A stroke that comes so soon after the one that answered a slot is that slot's own, and what came before led to it:
   * graces, the first of a unison. 0 where the phrase has none.
   */
  readonly leadMs: Ms;
  /** Slots the line that foretells goes through, and slots either side that set a beat afterwards. */
  readonly ahead: number;
  readonly around: number;
}

/** A tempo for a moment: beat `atBeat` is at `atMs`, the next `beatMs` later. */
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
  readonly strain: number;
}

export const notBegun: OwnTime = { slot: -1, beats: [], times: [], line: null, strain: 0 };

/** Slots a line goes through. Source: grading.md section 4. */
const SLOTS_OF_LINE = 16;
/**
 * Where the tempo is meant to move by up to 8 % a bar, as in open–close–open, a line through sixteen slots would lie up to
 * a third of a gap off. Measured: with these 99 of 100 strokes are in their slots.
 */
const SLOTS_AHEAD_MOVING = 8;
const SLOTS_AROUND_MOVING = 5;
/** So many strokes answer the first slots in turn, whatever their tempo. */
const IN_TURN = 4;
/** Residuals over so many median absolute deviations are left out. Source: grading.md section 4. */
const MOST_MADS = 3;
/** Of fewer points none is left out. */
const FEWEST_FOR_MAD = 6;
/** A stroke further from every slot than this share of the gap to the next one answers none. */
const HALF = 0.5;

/**
 * @param grid one slot a moment (`momentsOf`), at a steady tempo from 0 ms on, `beatMs` a beat
 * @param moving true where the tempo is meant to move
 */
export function scoreOf({ slots }: Grid, beatMs: Ms, leadMs: Ms, moving: boolean): Score {
  return {
    ahead: moving ? SLOTS_AHEAD_MOVING : SLOTS_OF_LINE,
    around: moving ? SLOTS_AROUND_MOVING : SLOTS_OF_LINE,
    at: Float64Array.from(slots, ({ atMs }) => atMs / beatMs),
    accent: Uint8Array.from(slots, ({ kind }) => Number(kind === 'accent')),
    leadMs,
  };
}

/**
 * The time after a stroke. The first four strokes answer the first four slots; from then on a stroke answers the slot
 * nearest to where the line foretells it, and none where that is half a gap away or answered already.
 * @param beatMs a beat, as long as one stroke alone tells nothing of it
 * @returns `times` is the very array it was where the stroke answers no slot
 */
export function heard(score: Score, state: OwnTime, atMs: Ms, beatMs: Ms): OwnTime {
  const { slot, times } = state;
  const last = times.length - 1;
  if (last >= 0 && atMs - times[last] <= score.leadMs) return moved(state, atMs, beatMs);
  const next = slotFor(score, state, atMs);
  return next === slot ? { ...state, strain: state.strain + 1 } : answered(score, state, next, atMs, beatMs);
}

/** The time after a stroke that answers a slot it is known to answer. */
export function answered(score: Score, state: OwnTime, slot: number, atMs: Ms, beatMs: Ms): OwnTime {
  const beats = [...state.beats, score.at[slot]].slice(-score.ahead);
  const times = [...state.times, atMs].slice(-score.ahead);
  const strain = state.strain + slot - state.slot - 1 + offLine(score, state, slot, atMs);
  return {
    slot,
    beats,
    times,
    line: lineThrough(beats, times) ?? { atBeat: beats[0], atMs, beatMs },
    strain,
  };
}

/** (2d)² of a stroke against the line as it was; 0 while that is not to be trusted. */
function offLine({ at }: Score, { times, line }: OwnTime, slot: number, atMs: Ms): number {
  if (line === null || times.length < IN_TURN || slot === 0) return 0;
  const gaps = (beatAt(line, atMs) - at[slot]) / (at[slot] - at[slot - 1]);
  return 4 * gaps * gaps;
}

/** The last slot is answered by this stroke, not by the one before. */
function moved(state: OwnTime, atMs: Ms, beatMs: Ms): OwnTime {
  const { beats } = state;
  const now = [...state.times.slice(0, -1), atMs];
  return { ...state, times: now, line: lineThrough(beats, now) ?? { atBeat: beats[0], atMs, beatMs } };
}

function slotFor({ at }: Score, { slot, times, line }: OwnTime, atMs: Ms): number {
  if (times.length < IN_TURN || line === null) return Math.min(slot + 1, at.length - 1);
  const beat = beatAt(line, atMs);
  let nearest = slot + 1;
  while (nearest + 1 < at.length && at[nearest + 1] - beat <= beat - at[nearest]) nearest += 1;
  if (nearest >= at.length) return slot;
  const gap = at[nearest] - at[nearest - 1];
  const after = nearest + 1 < at.length ? at[nearest + 1] - at[nearest] : gap;
  return Math.abs(beat - at[nearest]) < HALF * Math.min(gap, after) ? nearest : slot;
}

/** The beat a line has at a time, with its fraction. */
export const beatAt = ({ atBeat, atMs, beatMs }: TimeLine, timeMs: Ms): number =>
  atBeat + (timeMs - atMs) / beatMs;

/** When a line has a beat. */
export const timeOf = ({ atBeat, atMs, beatMs }: TimeLine, beat: number): Ms =>
  atMs + (beat - atBeat) * beatMs;

/**
 * The least-squares line through slots answered; then once more without those over 3 median absolute deviations from it.
 * @returns undefined under two slots
 */
export function lineThrough(beats: ArrayLike<number>, times: ArrayLike<Ms>): TimeLine | undefined {
  const all = Array.from({ length: beats.length }, (_, index) => index);
  const first = leastSquares(beats, times, all);
  if (first === undefined || all.length < FEWEST_FOR_MAD) return first;
  const off = Float64Array.from(all, (index) => Math.abs(times[index] - timeOf(first, beats[index])));
  const most = MOST_MADS * (medianInPlace(off.slice()) ?? 0);
  const near = all.filter((index) => off[index] <= most);
  return near.length === all.length ? first : (leastSquares(beats, times, near) ?? first);
}

function leastSquares(
  beats: ArrayLike<number>,
  times: ArrayLike<Ms>,
  of: readonly number[],
): TimeLine | undefined {
  let [beat, time] = [0, 0];
  for (const index of of) {
    beat += beats[index] / of.length;
    time += times[index] / of.length;
  }
  let [spread, together] = [0, 0];
  for (const index of of) {
    spread += (beats[index] - beat) * (beats[index] - beat);
    together += (beats[index] - beat) * (times[index] - time);
  }
  const beatMs = together / spread;
  return beatMs > 0 && Number.isFinite(beatMs) ? { atBeat: beat, atMs: time, beatMs } : undefined;
}
