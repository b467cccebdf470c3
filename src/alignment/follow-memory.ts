import type { Grid } from '../exercises/types';
import { pairingTable, STATES, type PairingTable } from './pairing';
import { countStroke, runningOffset, type RunningOffset } from './follow-offset';
import type { Settings } from '../settings';
import type { Ms } from '../units';
import { laidMs, plainReading, type Reading } from './follow-laid';
import { readableOf, type Readable, type SoFar } from './follow-reading';
import { targetsOf, type Targets } from './targets';

/** Strokes of one kind in time order, in columns that grow by doubling. `count` of the rows are in use. */
interface Rows {
  count: number;
  at: Float64Array;
  level: Float64Array;
  /** Number of the stroke, by arrival. */
  index: Int32Array;
}

/** Strokes that are paired, with their rows of the pairing table and the way taken through it. */
interface PairedRows extends Rows {
  table: PairingTable;
  /** State of the row on the way taken. */
  state: Uint8Array;
  /** Slot the stroke answers, −1 for an extra, `NEW` before it was paired the first time. */
  slotOf: Int32Array;
}

export const NEW = -2;

/** Slot outcomes as numbers. */
export const OPEN = 0;
export const MATCHED = 1;
export const MISSED = 2;
export const TOO_SOFT = 3;

/** What a follower writes to as it goes. Owned by the newest state; older states read what is newer than they are. */
export interface FollowMemory {
  readonly grid: Grid;
  readonly targets: Targets;
  readonly settings: Settings;
  readonly fixed: { readonly offsetMs: Ms; readonly limitGaps: number } | undefined;
  readonly thresholdDb: number;
  readonly knownMs: Ms | undefined;
  readonly barStart: Float64Array;
  running: RunningOffset;
  /** Undefined where offset and limit are given. */
  readonly readable: Readable | undefined;
  /** How the strokes lie against the click, of the last time all was paired again. */
  reading: Reading;
  readonly strokes: PairedRows;
  readonly echoes: Rows;
  /** By arrival; times as they were struck, those of `strokes` and `echoes` as they lie on the click's clock. */
  arrived: number;
  atOf: Float64Array;
  levelOf: Float64Array;
  handOf: Int8Array;
  /** By slot: the stroke of the pairing, then with echoes that fill it, or −1; and the outcome told last. */
  readonly paired: Int32Array;
  readonly answer: Int32Array;
  readonly outcome: Uint8Array;
  readonly annotated: Int32Array;
  /** One more than the last slot that ever had an answer. */
  reach: number;
  /** First row of the open beats. */
  openFrom: number;
  /** The limit in force: of the last time all was paired again. */
  limitGaps: number;
  /** Strokes at which the whole gap is decided and all paired again next, once the first bar is over. */
  reviewAt: number;
  /** The bar that is running. */
  bar: number;
}

/** Strokes before the whole gap is decided the first time. */
export const STROKES_TO_DECIDE = 4;
const FIRST_ROOM = 1024;

export function followMemory(
  grid: Grid,
  settings: Settings,
  thresholdDb: number,
  knownMs: Ms | undefined,
  fixed: FollowMemory['fixed'],
  isOwnTime: boolean,
): FollowMemory {
  const targets = targetsOf(grid);
  const slots = targets.count;
  return {
    grid,
    targets,
    settings,
    fixed,
    thresholdDb,
    knownMs,
    barStart: Float64Array.from(grid.bars, (bar) => bar.startMs),
    running: runningOffset(targets, settings, knownMs),
    readable: fixed === undefined && slots > 1 ? readableOf(grid, isOwnTime) : undefined,
    reading: plainReading,
    strokes: { ...rows(), ...pairedColumns() },
    echoes: rows(),
    arrived: 0,
    atOf: new Float64Array(FIRST_ROOM),
    levelOf: new Float64Array(FIRST_ROOM),
    handOf: new Int8Array(FIRST_ROOM),
    paired: new Int32Array(slots).fill(-1),
    answer: new Int32Array(slots).fill(-1),
    outcome: new Uint8Array(slots),
    annotated: new Int32Array(slots).fill(-1),
    reach: 0,
    openFrom: 0,
    limitGaps: fixed?.limitGaps ?? settings['pairing.limitLive'],
    reviewAt: STROKES_TO_DECIDE,
    bar: 0,
  };
}

function rows(): Rows {
  return {
    count: 0,
    at: new Float64Array(FIRST_ROOM),
    level: new Float64Array(FIRST_ROOM),
    index: new Int32Array(FIRST_ROOM),
  };
}

function pairedColumns(): Pick<PairedRows, 'table' | 'state' | 'slotOf' | 'at'> {
  const table = pairingTable(new Float64Array(FIRST_ROOM));
  return { table, at: table.at, state: new Uint8Array(FIRST_ROOM), slotOf: new Int32Array(FIRST_ROOM) };
}

/** Remembers a stroke by its arrival, and returns its number. */
export function arrive(memory: FollowMemory, atMs: Ms, level: number, hand: number): number {
  const index = memory.arrived++;
  if (index === memory.atOf.length) {
    memory.atOf = grown(memory.atOf, Float64Array);
    memory.levelOf = grown(memory.levelOf, Float64Array);
    memory.handOf = grown(memory.handOf, Int8Array);
  }
  memory.atOf[index] = atMs;
  memory.levelOf[index] = level;
  memory.handOf[index] = hand;
  return index;
}

/** Puts a stroke in its place in time, after those at the same time; nearly always the last. Returns its row. */
export function insertRow(rowsOf: Rows | PairedRows, atMs: Ms, level: number, index: number): number {
  if (rowsOf.count === rowsOf.at.length) grow(rowsOf);
  let row = rowsOf.count;
  while (row > 0 && rowsOf.at[row - 1] > atMs) row--;
  shift(rowsOf, row, row + 1);
  rowsOf.count++;
  rowsOf.at[row] = atMs;
  rowsOf.level[row] = level;
  rowsOf.index[row] = index;
  if ('slotOf' in rowsOf) rowsOf.slotOf[row] = NEW;
  return row;
}

/**
 * Lays all strokes anew: by another reading they lie elsewhere on the click's clock, in the same order. The running offset
 * is counted again, and what was told of them is forgotten, so that it is told anew.
 */
export function layAgain(memory: FollowMemory, reading: Reading): void {
  const { strokes, echoes, atOf, targets, settings, knownMs, answer, annotated, reach } = memory;
  memory.reading = reading;
  for (const rowsOf of [strokes, echoes]) {
    for (let row = 0; row < rowsOf.count; row++) rowsOf.at[row] = laidMs(reading, atOf[rowsOf.index[row]]);
  }
  memory.running = runningOffset(targets, settings, knownMs);
  for (let row = 0; row < strokes.count; row++) countStroke(memory.running, targets, strokes.at[row], 1);
  for (let slot = 0; slot < reach; slot++) if (answer[slot] >= 0) annotated[slot] = NEW;
  memory.bar = 0;
}

/** The strokes that are paired, as they were struck. */
export function soFarOf({ strokes: { count, index, level }, atOf, handOf, bar }: FollowMemory): SoFar {
  return {
    at: Float64Array.from({ length: count }, (_, row) => atOf[index[row]]),
    hand: Int8Array.from({ length: count }, (_, row) => handOf[index[row]]),
    level: level.slice(0, count),
    bars: bar,
  };
}

export function removeRow(rowsOf: Rows | PairedRows, row: number): void {
  shift(rowsOf, row + 1, row);
  rowsOf.count--;
}

/** Row of the stroke with this number, looked for from the end, or −1. */
export function rowOf(rowsOf: Rows, index: number): number {
  let row = rowsOf.count - 1;
  while (row >= 0 && rowsOf.index[row] !== index) row--;
  return row;
}

function shift(rowsOf: Rows | PairedRows, from: number, to: number): void {
  const { count } = rowsOf;
  if (from === count && to > from) return;
  rowsOf.at.copyWithin(to, from, count);
  rowsOf.level.copyWithin(to, from, count);
  rowsOf.index.copyWithin(to, from, count);
  // Rows of the pairing table from here on are computed again, so they need not move.
  if ('slotOf' in rowsOf) rowsOf.slotOf.copyWithin(to, from, count);
}

function grow(rowsOf: Rows | PairedRows): void {
  rowsOf.at = grown(rowsOf.at, Float64Array);
  rowsOf.level = grown(rowsOf.level, Float64Array);
  rowsOf.index = grown(rowsOf.index, Int32Array);
  if (!('slotOf' in rowsOf)) return;
  const { before, gain, back } = rowsOf.table;
  const table = pairingTable(rowsOf.at);
  table.before.set(before);
  table.gain.set(gain.subarray(0, before.length * STATES));
  table.back.set(back);
  rowsOf.table = table;
  rowsOf.state = grown(rowsOf.state, Uint8Array);
  rowsOf.slotOf = grown(rowsOf.slotOf, Int32Array);
}

function grown<A extends Float64Array | Int32Array | Int8Array | Uint8Array>(
  column: A,
  make: new (length: number) => A,
): A {
  const larger = new make(2 * column.length);
  larger.set(column);
  return larger;
}
