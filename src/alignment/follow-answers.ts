import type { Ms } from '../units';
import { echoFor } from './echoes';
import { laidMs } from './follow-laid';
import { MATCHED, MISSED, NEW, OPEN, TOO_SOFT, type FollowMemory } from './follow-memory';
import { bestState, slotInState, stateBefore } from './pairing';
import { isTooSoft } from './too-soft';
import type { SlotOutcome } from './types';
import { countWhile } from '../ordered';

/** What a step changed: a slot's outcome (null: open again), a stroke that is an extra now or no longer. */
export type FollowChange =
  | { readonly kind: 'slot'; readonly slot: number; readonly outcome: SlotOutcome | null }
  | { readonly kind: 'extra'; readonly stroke: number; readonly bar: number }
  | { readonly kind: 'notExtra'; readonly stroke: number };

/** The outcome of a slot so far, undefined while it is open. */
export function outcomeOf(memory: FollowMemory, slot: number): SlotOutcome | undefined {
  switch (memory.outcome[slot]) {
    case MATCHED: {
      const stroke = memory.answer[slot];
      const hand = memory.handOf[stroke];
      const laid = laidMs(memory.reading, memory.atOf[stroke]);
      const deviationMs = laid - memory.targets.at[slot] - swungMs(memory, slot);
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

/** What the player's swing puts between a slot and the middle of all slots. */
function swungMs({ grid, reading }: FollowMemory, slot: number): Ms {
  if (reading.swingMs === 0) return 0;
  const { partialInBeat, beat, bar } = grid.slots[slot];
  if ((grid.bars[bar].partialsPerBeat[beat] ?? 1) % 2 === 1) return 0;
  return (partialInBeat % 2 === 1 ? 0.5 : -0.5) * reading.swingMs;
}

/**
 * Follows the best way back from the newest row, through those computed again and on until it joins the way taken before.
 * Returns the first slot whose answer may be another.
 */
export function retrace(memory: FollowMemory, from: number, offsetMs: Ms, changed: FollowChange[]): number {
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
export function answerAgain(
  memory: FollowMemory,
  low: number,
  offsetMs: Ms,
  dirty: number[],
  due: number,
): void {
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
export function dueUntil(
  memory: FollowMemory,
  from: number,
  nowMs: Ms,
  offsetMs: Ms,
  limitGaps: number,
): number {
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

export function tellSlot(memory: FollowMemory, slot: number, due: number, changed: FollowChange[]): void {
  const { answer, outcome, annotated, targets, settings, levelOf } = memory;
  let now = OPEN;
  if (answer[slot] >= 0) now = MATCHED;
  else if (slot < due) {
    const levelAt = (other: number): number => (answer[other] < 0 ? NaN : levelOf[answer[other]]);
    const windowDb = settings['tooSoft.windowDb'];
    now = isTooSoft(slot, memory.reach, targets, levelAt, memory.thresholdDb, windowDb) ? TOO_SOFT : MISSED;
  }
  if (now === outcome[slot] && answer[slot] === annotated[slot]) return;
  outcome[slot] = now;
  annotated[slot] = answer[slot];
  changed.push({ kind: 'slot', slot, outcome: outcomeOf(memory, slot) ?? null });
}

/** Tells all extras once more, in the bars they now lie in. */
export function tellExtras(memory: FollowMemory, offsetMs: Ms, changed: FollowChange[]): void {
  const { count, slotOf, index, at } = memory.strokes;
  for (let row = 0; row < count; row++) {
    if (slotOf[row] !== -1) continue;
    changed.push({ kind: 'extra', stroke: index[row], bar: barAt(memory, at[row] - offsetMs) });
  }
}

/** The last slot at or before a time, at least 0. */
export function slotBefore({ targets }: FollowMemory, timeMs: Ms): number {
  return Math.max(0, lastNotAfter(targets.at, timeMs));
}

/** The bar a time falls in; before the first the first, after the last the last. */
export function barAt({ barStart }: FollowMemory, timeMs: Ms): number {
  return Math.max(0, lastNotAfter(barStart, timeMs));
}

function lastNotAfter(times: Float64Array, timeMs: Ms): number {
  return countWhile(times.length, (index) => times[index] <= timeMs) - 1;
}
