import { kindCode, who, type Scope } from './codes';
import type { Columns } from './columns';
import { carriedTerms, fact } from '../facts/phrase-facts';

/** Strokes seen from the ones beside them, gathered once, by variation. */
export interface Movement {
  /** Doubles with both notes matched by the hand due, by (variation, hand). */
  readonly doubles: readonly Doubles[];
  readonly stretches: readonly Stretches[];
  readonly seams: readonly Seams[];
}

interface Doubles {
  /** Gap against nominal, %: positive is too wide, the second note late. */
  readonly percent: number[];
  /** Sum of the nominal gaps, ms. */
  nominalMs: number;
}

/** Intervals beginning with an accent, both strokes matched. */
interface Stretches {
  /** Against nominal, %: positive is longer. */
  readonly percent: number[];
  /** The accents' slots. */
  readonly slots: number[];
}

/** First strokes of bars whose variation differs from the bar before. */
export interface Seams {
  /** Such bars, whatever was played. */
  due: number;
  /** Deviation less that of its like later in the bar, ms; negative is early; and the slots of the first strokes. */
  readonly ms: number[];
  readonly slotsMs: number[];
  /** Level less that of its like later in the bar, dB; positive is louder; and the slots of the first strokes. */
  readonly dB: number[];
  readonly slotsDb: number[];
  /** Facts of the soft stroke less those of its like, summed over the changes, by (hand, carried term). */
  readonly moved: Float64Array;
}

export function movementOf(columns: Columns): Movement {
  const { names, variation, facts, kind, deviationMs } = columns;
  const { slots, bars } = columns.graded.grid;
  const doubles: Doubles[] = names.flatMap(() => [emptyDoubles(), emptyDoubles()]);
  const stretches = names.map((): Stretches => ({ percent: [], slots: [] }));
  const seams: Seams[] = names.map(() => ({
    due: 0,
    ms: [],
    slotsMs: [],
    dB: [],
    slotsDb: [],
    moved: new Float64Array(2 * carriedTerms.length),
  }));
  for (let i = 0; i < slots.length; i++) {
    if ((facts[i] & fact.double) !== 0 && isByItsHand(columns, i) && isByItsHand(columns, i - 1)) {
      const of = doubles[variation[i] * 2 + columns.who[i]];
      of.percent.push(doublePercent(columns, i));
      of.nominalMs += slots[i].atMs - slots[i - 1].atMs;
    }
    const next = slots[i + 1]?.atMs === slots[i].atMs ? i + 2 : i + 1;
    if (kind[i] === kindCode.accent && next < slots.length) {
      const longerMs = deviationMs[next] - deviationMs[i];
      if (Number.isNaN(longerMs)) continue;
      const { percent, slots: of } = stretches[variation[i]];
      percent.push((100 * longerMs) / (slots[next].atMs - slots[i].atMs));
      of.push(i);
    }
  }
  for (let b = 1; b < bars.length; b++) {
    if (bars[b].slots === 0 || bars[b].variation === bars[b - 1].variation) continue;
    // After a bar to listen to or to count aloud the player begins afresh: nothing gives way to anything.
    if (bars[b - 1].role !== 'play') continue;
    addSeam(columns, bars[b].firstSlot, bars[b].slots, seams[variation[bars[b].firstSlot]]);
  }
  return { doubles, stretches, seams };
}

/** How much wider than due the double is whose second note is slot `i`, %; NaN where a note of it wasn't matched. */
export function doublePercent({ deviationMs, graded: { grid } }: Columns, i: number): number {
  const nominalMs = grid.slots[i].atMs - grid.slots[i - 1].atMs;
  return (100 * (deviationMs[i] - deviationMs[i - 1])) / nominalMs;
}

/** Doubles of a scope, both notes matched by the hand due. */
export function doublesOf({ doubles }: Movement, variations: number, { variation, hand }: Scope): number {
  let n = 0;
  for (let v = 0; v < variations; v++) {
    if (variation !== undefined && v !== variation) continue;
    if (hand !== 'L') n += doubles[v * 2 + who.R].percent.length;
    if (hand !== 'R') n += doubles[v * 2 + who.L].percent.length;
  }
  return n;
}

function emptyDoubles(): Doubles {
  return { percent: [], nominalMs: 0 };
}

/**
 * The first stroke of a bar against the same place in the pattern's next repeat in the bar; where that is not to be
 * had, against its hand's mean in the rest of the bar, in level within the kind.
 */
function addSeam(columns: Columns, first: number, count: number, into: Seams): void {
  const { deviationMs, levelDb, kind, facts } = columns;
  const { slots } = columns.graded.grid;
  const move = (i: number, weight: number): void => {
    carriedTerms.forEach((term, t) => {
      if ((facts[i] & fact[term]) !== 0) into.moved[columns.who[i] * carriedTerms.length + t] += weight;
    });
  };
  const addMs = (ms: number): void => {
    into.ms.push(ms);
    into.slotsMs.push(first);
  };
  const addDb = (dB: number): void => {
    into.dB.push(dB);
    into.slotsDb.push(first);
  };
  into.due++;
  if (!isByItsHand(columns, first)) return;
  const repeat = nextRepeat(columns, first, count);
  if (repeat !== undefined && isByItsHand(columns, repeat)) {
    addMs(deviationMs[first] - deviationMs[repeat]);
    addDb(levelDb[first] - levelDb[repeat]);
    move(first, 1);
    move(repeat, -1);
    return;
  }
  const likes: number[] = [];
  let [sumMs, ofHand, sumDb] = [0, 0, 0];
  for (let i = first + 1; i < first + count; i++) {
    if (slots[i].hand !== slots[first].hand || !isByItsHand(columns, i)) continue;
    sumMs += deviationMs[i];
    ofHand++;
    if (kind[i] !== kind[first]) continue;
    sumDb += levelDb[i];
    likes.push(i);
  }
  if (ofHand > 0) addMs(deviationMs[first] - sumMs / ofHand);
  if (likes.length > 0) {
    addDb(levelDb[first] - sumDb / likes.length);
    move(first, 1);
    for (const like of likes) move(like, -1 / likes.length);
  }
}

function nextRepeat({ graded: { grid } }: Columns, first: number, count: number): number | undefined {
  const { slots } = grid;
  const { place, hand } = slots[first];
  for (let i = first + 1; i < first + count; i++) {
    if (slots[i].place === place && slots[i].hand === hand) return i;
  }
  return undefined;
}

function isByItsHand({ who: by }: Columns, i: number): boolean {
  return by[i] === who.R || by[i] === who.L;
}
