import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import { levelDb, type Db, type Ms } from '../units';
import {
  answerAgain,
  dueUntil,
  outcomeOf,
  retrace,
  slotBefore,
  tellExtras,
  tellSlot,
  type FollowChange,
} from './follow-answers';
import {
  arrive,
  followMemory,
  STROKES_TO_DECIDE,
  insertRow,
  layAgain,
  soFarOf,
  NEW,
  removeRow,
  rowOf,
  type FollowMemory,
} from './follow-memory';
import { countStroke, offsetNow, wholeGap } from './follow-offset';
import { isSame, laidMs, plainReading, type Reading } from './follow-laid';
import { READ_SLOTS, readSoFar } from './follow-reading';
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
  /** How the strokes lie against the click. */
  readonly reading: Reading;
  readonly memory: FollowMemory;
}

interface Follower {
  readonly start: FollowState;
  /** Amortised constant time. */
  readonly step: (state: FollowState, event: FollowEvent) => FollowState;
}

/** What is known before: the rig's offset, the level its pad still reports, whose time it is. */
interface Known {
  readonly offsetMs?: Ms;
  readonly thresholdDb?: Db;
  /** The grid is in the player's own time: it is behind no click, and keeps no other tempo. */
  readonly isOwnTime?: boolean;
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
  const isOwnTime = known.isOwnTime === true;
  const memory = followMemory(grid, settings, thresholdDb, known.offsetMs, fixed, isOwnTime);
  const start: FollowState = {
    offsetMs: fixed?.offsetMs ?? known.offsetMs ?? 0,
    limitGaps: fixed?.limitGaps ?? settings['pairing.limitLive'],
    nowMs: -Infinity,
    strokes: 0,
    due: 0,
    changed: [],
    reading: plainReading,
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
      const laid = laidMs(memory.reading, atMs);
      if (echoLike) {
        insertRow(memory.echoes, laid, level, index);
        lowSlot = slotBefore(memory, laid - state.offsetMs);
      } else {
        from = insertRow(memory.strokes, laid, level, index);
        countStroke(memory.running, memory.targets, laid, 1);
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

  const { offset, isNew } = decideOffset(state, event, nowMs);
  const isLaidAnew = memory.reading !== state.reading;
  const laidNowMs = laidMs(memory.reading, nowMs);
  if (isNew) from = 0;
  else if (memory.fixed === undefined && event.kind !== 'tick')
    from = Math.min(from, openRow(memory, laidNowMs));
  const { limitGaps, reading } = memory;
  for (let row = from; row < memory.strokes.count; row++) {
    pairStep(memory.strokes.table, row, memory.targets, offset, limitGaps);
  }
  lowSlot = Math.min(lowSlot, retrace(memory, from, offset, changed), isLaidAnew ? 0 : Infinity);

  const overFrom = isLaidAnew ? 0 : state.due;
  const due = dueUntil(memory, overFrom, laidNowMs, offset, limitGaps);
  const told = isLaidAnew ? Math.max(due, state.due, memory.reach) : due;
  for (let slot = overFrom; slot < told; slot++) dirty.push(slot);
  answerAgain(memory, lowSlot, offset, dirty, due);
  for (const slot of dirty) tellSlot(memory, slot, due, changed);
  if (isLaidAnew) tellExtras(memory, offset, changed);
  return { offsetMs: offset, limitGaps, nowMs, strokes, due, changed, reading, memory };
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
 * more strokes. Each time the strokes so far are read and laid anew, and the whole gap is decided over the bars that are
 * over.
 */
function decideOffset(state: FollowState, event: FollowEvent, nowMs: Ms): { offset: Ms; isNew: boolean } {
  const { memory } = state;
  if (memory.fixed !== undefined) return { offset: memory.fixed.offsetMs, isNew: false };
  const { targets, strokes, settings } = memory;
  countBars(memory, nowMs);
  const offset = event.kind === 'tick' ? state.offsetMs : offsetNow(memory.running, targets);
  if (memory.bar === 0 || strokes.count < memory.reviewAt) {
    if (memory.reviewAt > STROKES_TO_DECIDE) memory.running.near = offset;
    return { offset, isNew: false };
  }
  const decided = readAgain(memory, nowMs) ? offsetNow(memory.running, targets) : offset;
  const whole = memory.bar === 0 ? decided : wholeGapIn(memory, decided);
  memory.running.near = whole;
  memory.limitGaps = limitUnder(targets, strokes.at.subarray(0, strokes.count), whole, settings);
  memory.reviewAt = REVIEW_FACTOR * strokes.count;
  return { offset: whole, isNew: true };
}

function countBars(memory: FollowMemory, nowMs: Ms): void {
  const { bars } = memory.grid;
  const laidNowMs = laidMs(memory.reading, nowMs) - memory.targets.smallestGapMs;
  while (memory.bar < bars.length && laidNowMs > bars[memory.bar].endMs) memory.bar++;
}

function wholeGapIn({ targets, strokes, settings, grid, bar }: FollowMemory, offset: Ms): Ms {
  const { firstSlot, slots, endMs } = grid.bars[bar - 1];
  return wholeGap(targets, strokes, offset, firstSlot + slots, endMs, settings);
}

/** Reads the strokes so far. @returns true where they lie otherwise than before */
function readAgain(memory: FollowMemory, nowMs: Ms): boolean {
  const { readable, settings, reading: before } = memory;
  if (readable === undefined || memory.strokes.count > READ_SLOTS) return false;
  const reading = readSoFar(readable, soFarOf(memory), before, settings);
  if (isSame(reading, before)) return false;
  layAgain(memory, reading);
  countBars(memory, nowMs);
  return true;
}

/** The first row of the open beats; it only moves on. */
function openRow(memory: FollowMemory, nowMs: Ms): number {
  const { strokes, grid } = memory;
  const bar = grid.bars[Math.min(memory.bar, grid.bars.length - 1)];
  const openMs = nowMs - (OPEN_BEATS * (bar.endMs - bar.startMs)) / bar.beats;
  while (memory.openFrom < strokes.count && strokes.at[memory.openFrom] < openMs) memory.openFrom++;
  return memory.openFrom;
}
