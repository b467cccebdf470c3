import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import { levelDb, type Db, type Ms } from '../units';
import { echoFor } from './echoes';
import {
  arrive,
  followMemory,
  insertRow,
  MATCHED,
  MISSED,
  NEW,
  OPEN,
  removeRow,
  rowOf,
  TOO_SOFT,
  type FollowMemory,
} from './follow-memory';
import { countDistance, countStroke, limitNow, offsetNow, wholeGap } from './follow-offset';
import { bestState, pairStep, slotInState, stateBefore } from './pairing';
import { handSign } from './targets';
import { isTooSoft } from './too-soft';
import type { AlignStroke, Extra, SlotOutcome } from './types';

/**
 * What happens to a running take. Strokes are numbered by arrival from 0; `retract` takes back the one with that number
 * (a forerunner whose louder stroke came after it). The tick at Infinity ends the take.
 */
export type FollowEvent =
  | { readonly kind: 'stroke'; readonly stroke: AlignStroke }
  | { readonly kind: 'tick'; readonly atMs: Ms }
  | { readonly kind: 'retract'; readonly stroke: number };

/** What a step changed: a slot's outcome (null: open again), a stroke that is an extra now or no longer. */
export type FollowChange =
  | { readonly kind: 'slot'; readonly slot: number; readonly outcome: SlotOutcome | null }
  | { readonly kind: 'extra'; readonly stroke: number; readonly bar: number }
  | { readonly kind: 'notExtra'; readonly stroke: number };

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

export interface Follower {
  readonly start: FollowState;
  /** Amortised constant time. */
  readonly step: (state: FollowState, event: FollowEvent) => FollowState;
}

/** What a rig knows: its offset, and the level its pad still reports. */
export interface Known {
  readonly offsetMs?: Ms;
  readonly thresholdDb?: Db;
}

/**
 * Pairing a step at a time. At each stroke the open two beats are paired anew under the running offset and limit; the
 * rows of older strokes stay as they were, and a pair among them changes only where the best way through those rows now
 * is another. Once, when the first bar is over, the whole gap is decided as in the batch, and all is paired anew; so it
 * is again whenever there are a quarter more strokes, because the offset was still settling before. The limit is
 * `pairing.limitLive` for the first strokes and then follows their spread, as the batch's does: with a limit that stays
 * 0.75, and without the pairing anew, 1.5 % of benchmark takes differed from the batch in over 1 % of their slots. Slips
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
  switch (memory.outcome[slot]) {
    case MATCHED: {
      const stroke = memory.answer[slot];
      const hand = memory.handOf[stroke];
      const deviationMs = memory.atOf[stroke] - memory.targets.at[slot];
      const wrongHand = hand !== 0 && hand !== memory.targets.hand[slot];
      return { status: 'matched', stroke, deviationMs, wrongHand };
    }
    case MISSED:
      return { status: 'missed' };
    case TOO_SOFT:
      return { status: 'tooSoft' };
    default:
      return undefined;
  }
}

/** All extras so far, in time order. Linear in the take: for its end, not for each step. */
export function extrasSoFar({ memory, offsetMs }: FollowState): Extra[] {
  const { strokes } = memory;
  const extras: Extra[] = [];
  for (let row = 0; row < strokes.count; row++) {
    if (strokes.slotOf[row] < 0) {
      extras.push({ stroke: strokes.index[row], bar: barAt(memory, strokes.at[row] - offsetMs) });
    }
  }
  return extras;
}

/** Beats that are paired anew at each step. */
const OPEN_BEATS = 2;
/** Strokes before the whole gap is decided; where the first bar has fewer, the next bar's end is waited for. */
const STROKES_TO_DECIDE = 4;
/** After that all is paired anew whenever there are this many times as many strokes: seldom, so constant a stroke. */
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
  if (offsetMs.anew) from = 0;
  else if (memory.fixed === undefined && event.kind !== 'tick') from = Math.min(from, openRow(memory, nowMs));
  const offset = offsetMs.offset;
  if (event.kind === 'stroke' && !event.stroke.echoLike) {
    countDistance(memory.running, memory.targets, event.stroke.atMs, offset);
  }
  const limitGaps = memory.fixed?.limitGaps ?? limitNow(memory.running, memory.settings);
  for (let row = from; row < memory.strokes.count; row++) {
    pairStep(memory.strokes.table, row, memory.targets, offset, limitGaps);
  }
  lowSlot = Math.min(lowSlot, retrace(memory, from, offset, changed));

  const due = dueUntil(memory, state.due, nowMs, offset, limitGaps);
  for (let slot = state.due; slot < due; slot++) dirty.push(slot);
  answerAnew(memory, lowSlot, offset, dirty, due);
  for (const slot of dirty) tellSlot(memory, slot, due, changed);
  return { offsetMs: offset, limitGaps, nowMs, strokes, due, changed, memory };
}

/** Takes a row out; its slot is free again. Returns the first slot to answer anew. */
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

/** The running offset, or once the one a whole gap decides; `anew` where all must be paired again. */
function decideOffset(state: FollowState, event: FollowEvent, nowMs: Ms): { offset: Ms; anew: boolean } {
  const { memory } = state;
  if (memory.fixed !== undefined) return { offset: memory.fixed.offsetMs, anew: false };
  const { bars } = memory.grid;
  let barOver = false;
  while (memory.bar < bars.length && nowMs > bars[memory.bar].endMs + memory.targets.smallestGapMs) {
    memory.bar++;
    barOver = true;
  }
  const offset = event.kind === 'tick' ? state.offsetMs : offsetNow(memory.running, memory.targets);
  if (memory.decided) {
    memory.running.near = offset;
    const anew = memory.strokes.count >= memory.reviewAt;
    if (anew) memory.reviewAt = REVIEW_FACTOR * memory.strokes.count;
    return { offset, anew };
  }
  if (!barOver || memory.strokes.count < STROKES_TO_DECIDE) return { offset, anew: false };
  memory.decided = true;
  memory.reviewAt = REVIEW_FACTOR * memory.strokes.count;
  const over = bars[memory.bar - 1];
  const decided = wholeGap(
    memory.targets,
    memory.strokes,
    offset,
    over.firstSlot + over.slots,
    over.endMs,
    memory.settings,
  );
  memory.running.near = decided;
  return { offset: decided, anew: true };
}

/** The first row of the open beats; it only moves on. */
function openRow(memory: FollowMemory, nowMs: Ms): number {
  const { strokes, grid } = memory;
  const bar = grid.bars[Math.min(memory.bar, grid.bars.length - 1)];
  const openMs = nowMs - (OPEN_BEATS * (bar.endMs - bar.startMs)) / bar.beats;
  while (memory.openFrom < strokes.count && strokes.at[memory.openFrom] < openMs) memory.openFrom++;
  return memory.openFrom;
}

/**
 * Follows the best way back from the newest row, through those computed anew and on until it joins the way taken before.
 * Returns the first slot whose answer may be another.
 */
function retrace(memory: FollowMemory, from: number, offsetMs: Ms, changed: FollowChange[]): number {
  const { strokes, targets, paired } = memory;
  const { table } = strokes;
  if (strokes.count === 0 || (from >= strokes.count && from > 0 && isTraced(memory))) return targets.count;
  const moved: number[] = [];
  const slots: number[] = [];
  let state = bestState(table, strokes.count - 1);
  let row = strokes.count - 1;
  for (; row >= 0; row--) {
    if (row < from && strokes.state[row] === state) break;
    strokes.state[row] = state;
    const slot = slotInState(table, row, state);
    if (slot !== strokes.slotOf[row]) {
      moved.push(row);
      slots.push(slot);
    }
    state = stateBefore(table, row, state);
  }
  for (const one of moved) if (strokes.slotOf[one] >= 0) paired[strokes.slotOf[one]] = -1;
  let low = row >= 0 ? table.before[row] : 0;
  moved.forEach((one, i) => {
    const stroke = strokes.index[one];
    const before = strokes.slotOf[one];
    if (before >= 0) low = Math.min(low, before);
    if (slots[i] >= 0) {
      paired[slots[i]] = stroke;
      if (before === -1) changed.push({ kind: 'notExtra', stroke });
    } else {
      changed.push({ kind: 'extra', stroke, bar: barAt(memory, strokes.at[one] - offsetMs) });
    }
    strokes.slotOf[one] = slots[i];
  });
  // An echo's place in the order depends on the last pair before, so its slot is looked at too.
  while (row >= 0 && strokes.slotOf[row] < 0) row--;
  if (row >= 0) low = Math.min(low, strokes.slotOf[row]);
  return moved.length === 0 && memory.echoes.count === 0 ? targets.count : Math.max(0, low);
}

/** True where the newest row is on the way taken: after a tick nothing has to be followed. */
function isTraced({ strokes }: FollowMemory): boolean {
  const last = strokes.count - 1;
  return strokes.slotOf[last] !== NEW && strokes.state[last] === bestState(strokes.table, last);
}

/** From `low` on: the pair's stroke, else an echo-like one that fills the slot; `dirty` gets each slot that changed. */
function answerAnew(memory: FollowMemory, low: number, offsetMs: Ms, dirty: number[], due: number): void {
  const { targets, strokes, echoes, paired, answer, settings } = memory;
  const last = Math.max(lastBefore(strokes), lastBefore(echoes));
  const end = last === -Infinity ? 0 : Math.max(memory.reach, slotBefore(memory, last - offsetMs) + 2);
  const changedSlots: number[] = [];
  const isNeighbour = (other: number, slot: number): boolean =>
    targets.hand[other] === targets.hand[slot] && answer[other] >= 0;
  for (let slot = low; slot < Math.min(end, targets.count); slot++) {
    let stroke = paired[slot];
    if (stroke < 0 && echoes.count > 0) {
      const echo = echoFor(
        slot,
        targets,
        echoes,
        strokes,
        strokes.slotOf,
        offsetMs,
        settings['echo.fillGaps'],
      );
      if (echo >= 0) stroke = echoes.index[echo];
    }
    if (stroke === answer[slot]) continue;
    answer[slot] = stroke;
    memory.reach = Math.max(memory.reach, slot + 1);
    changedSlots.push(slot);
  }
  for (const slot of changedSlots) {
    dirty.push(slot);
    // Lost strokes beside it may be too soft now, or no longer.
    for (let other = slot - 1; other >= 0 && !isNeighbour(other, slot); other--)
      if (other < due) dirty.push(other);
    for (let other = slot + 1; other < due && !isNeighbour(other, slot); other++) dirty.push(other);
  }
}

const lastBefore = (rows: { readonly count: number; readonly at: Float64Array }): number =>
  rows.count === 0 ? -Infinity : rows.at[rows.count - 1];

/** Slots before this are over: no stroke of now reaches them. At the end all of the last bar that has a stroke. */
function dueUntil(memory: FollowMemory, from: number, nowMs: Ms, offsetMs: Ms, limitGaps: number): number {
  const { targets, grid, strokes } = memory;
  let due = from;
  if (nowMs === Infinity) {
    if (strokes.count === 0) return due;
    const bar = grid.bars[barAt(memory, strokes.at[strokes.count - 1] - offsetMs)];
    return Math.max(due, bar.firstSlot + bar.slots);
  }
  while (due < targets.count && targets.at[due] + offsetMs + limitGaps * targets.gap[due] < nowMs) due++;
  return due;
}

function tellSlot(memory: FollowMemory, slot: number, due: number, changed: FollowChange[]): void {
  const { answer, outcome, told, targets, settings, levelOf } = memory;
  let now = OPEN;
  if (answer[slot] >= 0) now = MATCHED;
  else if (slot < due) {
    const levelAt = (other: number): number => (answer[other] < 0 ? NaN : levelOf[answer[other]]);
    const window = settings['tooSoft.windowDb'];
    now = isTooSoft(slot, memory.reach, targets, levelAt, memory.thresholdDb, window) ? TOO_SOFT : MISSED;
  }
  if (now === outcome[slot] && answer[slot] === told[slot]) return;
  outcome[slot] = now;
  told[slot] = answer[slot];
  changed.push({ kind: 'slot', slot, outcome: outcomeAt({ memory } as FollowState, slot) ?? null });
}

/** The last slot at or before a time, at least 0. */
function slotBefore({ targets }: FollowMemory, timeMs: Ms): number {
  return Math.max(0, lastNotAfter(targets.at, timeMs));
}

/** The bar a time falls in; before the first the first, after the last the last. */
function barAt({ barStart }: FollowMemory, timeMs: Ms): number {
  return Math.max(0, lastNotAfter(barStart, timeMs));
}

function lastNotAfter(times: Float64Array, timeMs: Ms): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] <= timeMs) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
