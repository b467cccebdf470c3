import { rowSpace } from '../../numbers/row-space';
import type { LikeSwing, TimeRow } from './types';

/** How the feel is looked for: place by place in the beat, off-beats against on-beats, or not at all. */
type FeelColumns = 'places' | 'swing' | 'none';

/** The columns of the time model, and for each distinct bar the rows they make. */
interface Design {
  /** Columns that the fit has, independent of each other. */
  readonly count: number;
  /** Distinct rows with their bar's mean taken off. */
  readonly rows: readonly Float64Array[];
  /** For each stroke its row. */
  readonly row: Uint32Array;
  /** For each stroke the columns as they are, no mean taken off. */
  readonly raw: readonly Float64Array[];
  /** What is told: as sums of the fit's columns, or null. */
  readonly lag: Float64Array | null;
  readonly feel: Float64Array | null;
  readonly second: Float64Array | null;
  readonly notToldApart: readonly LikeSwing[];
}

interface Trial extends Design {
  readonly hasHand: boolean;
  readonly hasSecond: boolean;
}

/**
 * The first of the three ways to look for feel under which hand and doubles can still be told: *places*, *swing* (of an
 * even number of partials a beat), *none*. A term told only without swing may be swing: it is not told apart from it.
 * `undefined` where there is nothing to tell.
 * @param rows bar after bar, all of bars with enough rows
 */
export function designOf(rows: readonly TimeRow[]): Design | undefined {
  let withSwing: Trial | undefined;
  for (const candidate of candidatesFor(rows)) {
    const trial = trialOf(rows, candidate);
    if (trial === undefined) continue;
    if (candidate === 'none') return { ...trial, notToldApart: likeSwing(trial, withSwing) };
    const tells = (!trial.hasHand || trial.lag !== null) && (!trial.hasSecond || trial.second !== null);
    if (tells) return trial;
    if (candidate === 'swing') withSwing = trial;
  }
  return undefined;
}

function candidatesFor(rows: readonly TimeRow[]): readonly FeelColumns[] {
  const partials = samePartials(rows);
  if (partials === undefined || partials === 1) return ['none'];
  if (partials === 2) return ['swing', 'none'];
  return partials % 2 === 0 ? ['places', 'swing', 'none'] : ['places', 'none'];
}

/** Partials of every beat; undefined where they differ. */
function samePartials(rows: readonly TimeRow[]): number | undefined {
  const first = rows[0]?.partials;
  return rows.every(({ partials }) => partials === first) ? first : undefined;
}

/** Terms that the fit tells and that it did not tell with swing among its columns. */
function likeSwing(chosen: Trial, withSwing: Trial | undefined): LikeSwing[] {
  if (withSwing === undefined) return [];
  const like: LikeSwing[] = [];
  if (chosen.lag !== null && withSwing.lag === null) like.push('lag');
  if (chosen.second !== null && withSwing.second === null) like.push('doubleGap');
  return like;
}

function trialOf(rows: readonly TimeRow[], candidate: FeelColumns): Trial | undefined {
  const codes = rows.map((row) => codeOf(row, candidate));
  const columns = columnsIn(rows, codes, candidate);
  if (columns.all.length === 0) return undefined;
  const rawOf = new Map<number, Float64Array>();
  rows.forEach((row, i) => {
    if (!rawOf.has(codes[i]))
      rawOf.set(
        codes[i],
        Float64Array.from(columns.all, (column) => column(row)),
      );
  });
  const { centred, row } = centredByBar(rows, codes, rawOf, columns.all.length);
  const { pivots, estimable } = rowSpace(squares(centred, row, columns.all.length), columns.all.length);
  if (pivots.length === 0) return undefined;
  const reduce = (full: ArrayLike<number>): Float64Array => Float64Array.from(pivots, (k) => full[k]);
  const tellable = (sum: Float64Array): Float64Array | null =>
    sum.some((by) => by !== 0) && sum.every((by, k) => by === 0 || estimable[k]) ? reduce(sum) : null;
  const one = (k: number): Float64Array =>
    Float64Array.from(columns.all, (_, column) => Number(k === column));
  const rawRows = new Map([...rawOf].map(([code, full]) => [code, reduce(full)]));
  return {
    count: pivots.length,
    rows: centred.map(reduce),
    row,
    raw: codes.map((code) => rawRows.get(code) ?? new Float64Array(pivots.length)),
    lag: tellable(one(columns.hand)),
    second: tellable(one(columns.second)),
    feel: tellable(columns.feel),
    notToldApart: [],
    hasHand: columns.hand >= 0,
    hasSecond: columns.second >= 0,
  };
}

type Column = (row: TimeRow) => number;

interface ColumnsIn {
  readonly all: readonly Column[];
  /** Number of the column, or −1 where nothing differs in it. */
  readonly hand: number;
  readonly second: number;
  /** Off-beats less on-beats, as a sum of the columns; noughts where there is no such thing. */
  readonly feel: Float64Array;
}

function columnsIn(rows: readonly TimeRow[], codes: readonly number[], candidate: FeelColumns): ColumnsIn {
  const seen = new Map<number, TimeRow>();
  rows.forEach((row, i) => {
    if (!seen.has(codes[i])) seen.set(codes[i], row);
  });
  const kinds = [...seen.values()];
  const all: Column[] = [];
  const add = (column: Column): number => {
    const first = column(kinds[0]);
    return kinds.every((row) => column(row) === first) ? -1 : all.push(column) - 1;
  };
  const hand = add((row) => (row.hand === 'R' ? 0.5 : -0.5));
  const second = add((row) => Number(row.second));
  add((row) => Number(row.seam));
  const off = new Map<number, number>();
  if (candidate === 'swing')
    off.set(
      add((row) => (row.partial % 2 === 1 ? 0.5 : -0.5)),
      1,
    );
  if (candidate === 'places') {
    const places = [...new Set(kinds.map((row) => row.partial))].sort((a, b) => a - b);
    const odd = places.filter((place) => place % 2 === 1).length;
    const even = places.length - odd;
    const swings = odd > 0 && even > 0 && kinds[0].partials % 2 === 0;
    // The first place is what the others are held against, and has no column.
    for (const place of places.slice(1)) {
      off.set(
        add((row) => Number(row.partial === place)),
        !swings ? 0 : place % 2 === 1 ? 1 / odd : -1 / even,
      );
    }
  }
  const feel = new Float64Array(all.length);
  for (const [column, by] of off) if (column >= 0) feel[column] = by;
  return { all, hand, second, feel };
}

/** Rows of one code are alike to the model. */
function codeOf({ hand, second, seam, partial }: TimeRow, candidate: FeelColumns): number {
  const place = candidate === 'places' ? partial : candidate === 'swing' ? partial % 2 : 0;
  return (hand === 'R' ? 1 : 0) | (second ? 2 : 0) | (seam ? 4 : 0) | (place << 3);
}

/** Each bar's mean taken off its rows; bars of the same codes share them. */
function centredByBar(
  rows: readonly TimeRow[],
  codes: readonly number[],
  rawOf: ReadonlyMap<number, Float64Array>,
  columns: number,
): { readonly centred: readonly Float64Array[]; readonly row: Uint32Array } {
  const centred: Float64Array[] = [];
  const row = new Uint32Array(rows.length);
  const known = new Map<string, Map<number, number>>();
  for (let from = 0, to = 0; from < rows.length; from = to) {
    while (to < rows.length && rows[to].bar === rows[from].bar) to++;
    const ofBar = codes.slice(from, to);
    const key = String.fromCharCode(...ofBar);
    let numbers = known.get(key);
    if (numbers === undefined) {
      numbers = new Map();
      known.set(key, numbers);
      const middle = new Float64Array(columns);
      for (const code of ofBar) rawOf.get(code)?.forEach((entry, k) => (middle[k] += entry / ofBar.length));
      for (const code of new Set(ofBar)) {
        const raw = rawOf.get(code) ?? middle;
        numbers.set(code, centred.push(Float64Array.from(raw, (entry, k) => entry - middle[k])) - 1);
      }
    }
    for (let i = from; i < to; i++) row[i] = numbers.get(codes[i]) ?? 0;
  }
  return { centred, row };
}

/** XᵀX / n: it spans the same rows as X. */
function squares(rows: readonly Float64Array[], row: Uint32Array, columns: number): number[][] {
  const counts = new Float64Array(rows.length);
  for (const r of row) counts[r]++;
  const gram = Array.from({ length: columns }, () => new Array<number>(columns).fill(0));
  rows.forEach((x, r) => {
    for (let a = 0; a < columns; a++)
      for (let b = 0; b < columns; b++) gram[a][b] += (counts[r] / row.length) * x[a] * x[b];
  });
  return gram;
}
