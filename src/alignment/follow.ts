import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import { levelDb, type Db, type Ms } from '../units';
import {
  answerAgain,
  dueUntil,
  outcomeOf,
  retrace,
  slotBefore,
  tellSlot,
  type FollowChange,
} from './follow-answers';
import {
  arrive,
  followMemory,
  STROKES_TO_DECIDE,
  insertRow,
  NEW,
  removeRow,
  rowOf,
  type FollowMemory,
} from './follow-memory';
import { countStroke, offsetNow, wholeGap } from './follow-offset';
import { limitUnder } from './offset';
import { pairStep } from './pairing';
import { handSign } from './targets';
import type { AlignStroke, SlotOutcome } from './types';

export type { FollowChange } from './follow-answers';

/**
 * What happens to a running take. Strokes are numbered by arrival from 0; `retract` takes back the one with that number
 * (a forerunner whose louder stroke came after it). The tick at Infinity ends the take.
 */
export type FollowEvent =
  | { readonly kind: 'stroke'; readonly stroke: AlignStroke }
  | { readonly kind: 'tick'; readonly atMs: Ms }
  | { readonly kind: 'retract'; readonly stroke: number };

/**
 * Where the pairing of a running take stands. Each step makes a small new state; what grows with the take lies in
 * `memory`, which the newest state owns and steps write to, so step from the newest state only (as `scan` does).
 */
export interface FollowState {
  /** Running offset, in ms. */
  readonly offsetMs: Ms;
  readonly limitGaps: number;
  /** Time of the latest event. */
  readonly nowMs: Ms;
  /** Strokes so far, echo-like ones included, those taken back not. */
  readonly strokes: number;
  /** Slots before this one are over: one without a stroke is a miss. */
  readonly due: number;
  readonly changed: readonly FollowChange[];
  readonly memory: FollowMemory;
}

interface Follower {
  readonly start: FollowState;
  /** Amortised constant time. */
  readonly step: (state: FollowState, event: FollowEvent) => FollowState;
}

/** What a rig knows: its offset, and the level its pad still reports. */
interface Known {
  readonly offsetMs?: Ms;
  readonly thresholdDb?: Db;
}

/**
 * Pairing a step at a time. At each stroke the open two beats are paired again under the running offset and limit; the
 * rows of older strokes stay as they were, and a pair among them changes only where the best way through those rows now
 * is another. When the first bar is over the whole gap is decided as in the batch and all is paired again; and so again
 * whenever there are a quarter more strokes, because the offset was still settling before. The limit is
 * `pairing.limitLive` at first, and that of the batch each time all is paired again: with a limit that stays 0.75, and without the pairing again, 1.5 % of benchmark takes differed from the batch in over 1 % of their slots. Slips
 * and fit are left to `align`, whose result replaces this after the last stroke.
 *
 * Given `fixed` (same offset and limit as the batch) the pairs are those of `align` exactly, after every step.
 * @param grid long enough for the take: slots after the last are not there
 */
export function follow(
  grid: Grid,
  settings: Settings,
  known: Known = {},
  fixed?: { readonly offsetMs: Ms; readonly limitGaps: number },
): Follower {
  const thresholdDb = known.thresholdDb ?? levelDb(settings['tooSoft.velocity']);
  const memory = followMemory(grid, settings, thresholdDb, known.offsetMs, fixed);
  const start: FollowState = {
    offsetMs: fixed?.offsetMs ?? known.offsetMs ?? 0,
    limitGaps: fixed?.limitGaps ?? settings['pairing.limitLive'],
    nowMs: -Infinity,
    strokes: 0,
    due: 0,
    changed: [],
    memory,
  };
  return { start, step: followStep };
}

/** The outcome of a slot so far, undefined while it is open. */
export function outcomeAt({ memory }: FollowState, slot: number): SlotOutcome | undefined {
  return outcomeOf(memory, slot);
}

/** Beats that are paired again at each step. */
const OPEN_BEATS = 2;
/** After that all is paired again whenever there are this many times as many strokes: seldom, so constant a stroke. */
const REVIEW_FACTOR = 1.25;

function followStep(state: FollowState, event: FollowEvent): FollowState {
  const { memory } = state;
  const changed: FollowChange[] = [];
  const dirty: number[] = [];
  let from = memory.strokes.count;
  let { nowMs, strokes } = state;
  let lowSlot = memory.targets.count;

  switch (event.kind) {
    case 'stroke': {
      const { atMs, levelDb: level, hand, echoLike } = event.stroke;
      nowMs = Math.max(nowMs, atMs);
      strokes++;
      const index = arrive(memory, atMs, level, handSign(hand));
      if (echoLike) {
        insertRow(memory.echoes, atMs, level, index);
        lowSlot = slotBefore(memory, atMs - state.offsetMs);
      } else {
        from = insertRow(memory.strokes, atMs, level, index);
        countStroke(memory.running, memory.targets, atMs, 1);
      }
      break;
    }
    case 'retract': {
      const row = rowOf(memory.strokes, event.stroke);
      const echo = row < 0 ? rowOf(memory.echoes, event.stroke) : -1;
      if (row < 0 && echo < 0) break;
      strokes--;
      if (row >= 0) {
        from = row;
        lowSlot = retractRow(memory, row, changed);
      } else {
        lowSlot = slotBefore(memory, memory.echoes.at[echo] - state.offsetMs);
        removeRow(memory.echoes, echo);
      }
      break;
    }
    case 'tick':
      nowMs = Math.max(nowMs, event.atMs);
  }

  const offsetMs = decideOffset(state, event, nowMs);
  if (offsetMs.isNew) from = 0;
  else if (memory.fixed === undefined && event.kind !== 'tick') from = Math.min(from, openRow(memory, nowMs));
  const offset = offsetMs.offset;
  const { limitGaps } = memory;
  for (let row = from; row < memory.strokes.count; row++) {
    pairStep(memory.strokes.table, row, memory.targets, offset, limitGaps);
  }
  lowSlot = Math.min(lowSlot, retrace(memory, from, offset, changed));

  const due = dueUntil(memory, state.due, nowMs, offset, limitGaps);
  for (let slot = state.due; slot < due; slot++) dirty.push(slot);
  answerAgain(memory, lowSlot, offset, dirty, due);
  for (const slot of dirty) tellSlot(memory, slot, due, changed);
  return { offsetMs: offset, limitGaps, nowMs, strokes, due, changed, memory };
}

/** Takes a row out; its slot is free again. Returns the first slot to answer again. */
function retractRow(memory: FollowMemory, row: number, changed: FollowChange[]): number {
  const { strokes } = memory;
  const slot = strokes.slotOf[row];
  if (slot >= 0) memory.paired[slot] = -1;
  else if (slot !== NEW) changed.push({ kind: 'notExtra', stroke: strokes.index[row] });
  countStroke(memory.running, memory.targets, strokes.at[row], -1);
  const low = Math.max(0, Math.min(slot < 0 ? Infinity : slot, strokes.table.before[row]));
  removeRow(strokes, row);
  return low;
}

/**
 * The running offset; `isNew` where all must be paired again: when the first bar is over, and then with every quarter
 * more strokes. Each time the whole gap is decided over the bars that are over.
 */
function decideOffset(state: FollowState, event: FollowEvent, nowMs: Ms): { offset: Ms; isNew: boolean } {
  const { memory } = state;
  if (memory.fixed !== undefined) return { offset: memory.fixed.offsetMs, isNew: false };
  const { targets, strokes, settings, running } = memory;
  const { bars } = memory.grid;
  while (memory.bar < bars.length && nowMs > bars[memory.bar].endMs + targets.smallestGapMs) memory.bar++;
  const offset = event.kind === 'tick' ? state.offsetMs : offsetNow(running, targets);
  if (memory.bar === 0 || strokes.count < memory.reviewAt) {
    if (memory.reviewAt > STROKES_TO_DECIDE) running.near = offset;
    return { offset, isNew: false };
  }
  const over = bars[memory.bar - 1];
  const decided = wholeGap(targets, strokes, offset, over.firstSlot + over.slots, over.endMs, settings);
  running.near = decided;
  memory.limitGaps = limitUnder(targets, strokes.at.subarray(0, strokes.count), decided, settings);
  memory.reviewAt = REVIEW_FACTOR * strokes.count;
  return { offset: decided, isNew: true };
}

/** The first row of the open beats; it only moves on. */
function openRow(memory: FollowMemory, nowMs: Ms): number {
  const { strokes, grid } = memory;
  const bar = grid.bars[Math.min(memory.bar, grid.bars.length - 1)];
  const openMs = nowMs - (OPEN_BEATS * (bar.endMs - bar.startMs)) / bar.beats;
  while (memory.openFrom < strokes.count && strokes.at[memory.openFrom] < openMs) memory.openFrom++;
  return memory.openFrom;
}
