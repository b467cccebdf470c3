import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import { mod, timeOfPlace, type OnLattice } from './course/lattice';
import { placeIn, type Segment } from './course/segments';
import type { Reading } from './follow-laid';

/** Strokes that are asked, the last ones. */
const LOOKED_AT = 256;
/** Of a bar, to have a mean. */
const FEWEST_IN_BAR = 4;
/** Of a column's squares, what must be left when the others are off it: less is the same thing by another name. */
const LEAST_APART = 0.1;

/** Strokes on the grid's lattice, the line they keep, and the places that they are late. */
interface LaidStrokes {
  readonly grid: Grid;
  readonly strokes: OnLattice;
  readonly segment: Segment;
  readonly places: number;
}

/**
 * **Swing of a running take**: by least squares, bar by bar, what an off-beat comes later than an on-beat, with hands and
 * second notes of doubles beside it. Told from the larger of 5 % of the gap and 8 ms and from four standard errors on.
 * Where the hands alternate with the beats nobody can tell swing from a late hand: over the larger of 12 % and 16 ms
 * nothing is said of the hands then.
 * @param known hands of the strokes: R +1, L −1, else 0
 */
export function swingIn(
  laid: LaidStrokes,
  known: Int8Array,
  settings: Settings,
): Pick<Reading, 'swingMs' | 'told'> {
  const { late, offBeat, hand, second } = columnsOf(laid, known);
  const gapMs = laid.grid.smallestGapMs;
  const tell = (percent: number, ms: number): number => Math.max((percent / 100) * gapMs, ms);
  const holds = tell(settings['doubleGap.holdsPercent'], settings['doubleGap.holdsMs']);
  const notYet = tell(settings['doubleGap.notYetPercent'], settings['doubleGap.notYetMs']);

  const others = [hand, without(second, [hand])];
  const alone = without(offBeat, others);
  const isApart = squares(alone) > LEAST_APART * squares(offBeat);
  if (isApart) {
    const { value, error } = slopeOn(alone, late, others);
    const isTold = Math.abs(value) >= holds && Math.abs(value) >= settings['course.lineErrors'] * error;
    return { swingMs: isTold ? value : 0, told: 'all' };
  }
  const isHand = squares(without(hand, [offBeat])) <= LEAST_APART * squares(hand) && squares(hand) > 0;
  if (!isHand) return { swingMs: 0, told: 'all' };
  const { value, error } = slopeOn(offBeat, late, []);
  const isLarge = Math.abs(value) >= notYet && Math.abs(value) >= settings['course.lineErrors'] * error;
  return { swingMs: 0, told: isLarge ? 'not by hand' : 'all' };
}

interface Columns {
  readonly late: Float64Array;
  readonly offBeat: Float64Array;
  readonly hand: Float64Array;
  readonly second: Float64Array;
}

/** The last strokes that stand where something is due, each bar's mean off each column. */
function columnsOf({ grid, strokes, segment, places }: LaidStrokes, known: Int8Array): Columns {
  const { lattice, at } = strokes;
  const rows: { readonly bar: number; readonly values: readonly [number, number, number, number] }[] = [];
  for (let i = Math.max(segment.from, segment.to - LOOKED_AT); i < segment.to; i += 1) {
    const place = placeIn(segment, strokes, i);
    const inCycle = mod(place - places, lattice.perCycle);
    const slot = lattice.slot[inCycle];
    if (slot < 0) continue;
    const { partialInBeat, together, beat, bar } = grid.slots[slot];
    const isPaired = (grid.bars[bar].partialsPerBeat[beat] ?? 1) % 2 === 0;
    const lateMs = at[i] - timeOfPlace(lattice, place) - segment.slope * (at[i] - segment.fromMs);
    const due = together === 2 ? 0 : grid.slots[slot].hand === 'R' ? 1 : -1;
    rows.push({
      bar: Math.floor((place - places) / lattice.perCycle) * grid.barsPerCycle + bar,
      values: [
        lateMs,
        isPaired ? (partialInBeat % 2 === 1 ? HALF : -HALF) : 0,
        HALF * (known[i] === 0 ? due : known[i]),
        Number(isSecond(grid, slot)),
      ],
    });
  }
  const out: readonly [number[], number[], number[], number[]] = [[], [], [], []];
  for (let from = 0, to = 0; from < rows.length; from = to) {
    while (to < rows.length && rows[to].bar === rows[from].bar) to += 1;
    if (to - from < FEWEST_IN_BAR) continue;
    out.forEach((column, c) => {
      let mean = 0;
      for (let i = from; i < to; i += 1) mean += rows[i].values[c] / (to - from);
      for (let i = from; i < to; i += 1) column.push(rows[i].values[c] - mean);
    });
  }
  const [late, offBeat, hand, second] = out.map((column) => Float64Array.from(column));
  return { late, offBeat, hand, second };
}

const HALF = 0.5;

/** The second of exactly two strokes of one hand in a row, in one bar. */
function isSecond({ slots }: Grid, index: number): boolean {
  const { hand, bar, partial, together } = slots[index];
  if (together === 2) return false;
  const isLike = (steps: number): boolean => {
    const other = slots[index + steps];
    if (other?.bar !== bar || other.together === 2) return false;
    return other.partial === partial + steps && other.hand === hand;
  };
  return isLike(-1) && !isLike(-2) && !isLike(1);
}

const dot = (one: Float64Array, other: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < one.length; i += 1) sum += one[i] * other[i];
  return sum;
};
const squares = (column: Float64Array): number => dot(column, column);

/** What is left of a column when others, at right angles to each other, are taken off it. */
function without(column: Float64Array, others: readonly Float64Array[]): Float64Array {
  let left = column;
  for (const other of others) {
    const size = squares(other);
    if (size < 1e-9) continue;
    const share = dot(left, other) / size;
    left = left.map((value, i) => value - share * other[i]);
  }
  return left;
}

/** Slope on a column, the others taken off before, and its standard error. */
function slopeOn(
  column: Float64Array,
  late: Float64Array,
  others: readonly Float64Array[],
): { readonly value: number; readonly error: number } {
  const size = squares(column);
  const value = dot(column, late) / size;
  const left = without(late, [...others, column]);
  const free = Math.max(1, late.length - others.length - 1);
  return { value, error: Math.sqrt(squares(left) / free / size) };
}
