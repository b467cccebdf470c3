import type { Ms } from '../units';
import { answered, heard, lineThrough, notBegun, timeOf } from './free-time';
import type { OwnTime, Score, TimeLine } from './free-time';
import type { AlignStroke } from './types';

/** The time of a whole take without a click. */
export interface TimeKept {
  /** When each beat of the phrase was, from its first bar to the end of the last bar that has a stroke. */
  readonly beatsMs: readonly Ms[];
}

/** One stroke, and the slot it answers. */
interface Answer {
  readonly slot: number;
  readonly atMs: Ms;
  readonly levelDb: number;
}

/** A beginning followed: which stroke answers which slot, and what did not fit. */
interface Tried {
  readonly answers: readonly Answer[];
  readonly strain: number;
}

/** Ways a take may begin: for each of its first strokes the slot it answers, or −1 for one that answers none. */
const BEGINNINGS: readonly (readonly number[])[] = [
  [0, 1, 2, 3],
  [-1, 0, 1, 2, 3],
  [-1, -1, 0, 1, 2, 3],
  [0, -1, 1, 2, 3],
  [0, 1, -1, 2, 3],
  [0, 1, 2, -1, 3],
  [1, 2, 3, 4],
  [2, 3, 4, 5],
  [0, 2, 3, 4],
  [0, 1, 3, 4],
  [0, 1, 2, 4],
];
/** Strokes each beginning is tried on. */
const TRIED = 96;
/** A beginning other than the plain one must be better by more than this. */
const UNUSUAL = 3;

/**
 * Tempo and phase of a take from its strokes alone. Stroke by stroke a line through the last 16 answered slots foretells
 * the next; then each beat is set by the line through the 16 answered slots either side of it (fewer where the tempo is meant to move), which knows what came
 * after too. A take may begin with a stroke that was none, or without its first: of several beginnings the one stands
 * under which the fewest slots are left empty, strokes left over and accents and soft strokes mistaken for one another.
 * @param strokes of the hands, in time order
 * @param beats of the phrase that `score` covers
 * @returns undefined of fewer than four strokes, and where they tell no time
 */
export function timeKept(score: Score, strokes: readonly TimedStroke[], beats: number): TimeKept | undefined {
  // What looks like a pad's echo may be a ghost note at a fast tempo: whichever leaves less unexplained.
  const readings = [strokes.filter(({ echoLike }) => !echoLike), strokes];
  let best: { readonly answers: readonly Answer[]; readonly cost: number } | undefined;
  for (const [reading, heardOf] of readings.entries()) {
    if (reading > 0 && heardOf.length === readings[0].length) break;
    for (const [index, beginning] of BEGINNINGS.entries()) {
      const tried = answersFrom(score, heardOf, beginning, TRIED);
      if (tried === undefined) continue;
      const cost = costOf(score, tried) + (index === 0 ? 0 : UNUSUAL);
      if (best !== undefined && cost >= best.cost) continue;
      const { answers } = answersFrom(score, heardOf, beginning, heardOf.length) ?? tried;
      best = { answers, cost };
    }
  }
  const beatsMs = best === undefined ? [] : beatsSet(score, best.answers, beats);
  return beatsMs.length < 2 ? undefined : { beatsMs };
}

type TimedStroke = Pick<AlignStroke, 'atMs' | 'levelDb' | 'echoLike'>;

function answersFrom(
  score: Score,
  strokes: readonly TimedStroke[],
  beginning: readonly number[],
  most: number,
): Tried | undefined {
  if (strokes.length < beginning.length || score.at.length < beginning.length) return undefined;
  const found: Answer[] = [];
  let state: OwnTime = notBegun;
  for (const [index, { atMs, levelDb }] of strokes.slice(0, most).entries()) {
    const slot = index < beginning.length ? beginning[index] : undefined;
    if (slot === -1) {
      state = { ...state, strain: state.strain + 1 };
      continue;
    }
    const next = slot === undefined ? heard(score, state, atMs, 1) : answered(score, state, slot, atMs, 1);
    if (next.times !== state.times) {
      if (next.slot === state.slot) found.pop();
      found.push({ slot: next.slot, atMs, levelDb });
    }
    state = next;
  }
  return { answers: found, strain: state.strain };
}

/** What did not fit, and accents and soft strokes in each other's places. */
function costOf({ accent }: Score, { answers, strain }: Tried): number {
  const due = answers.reduce((sum, { slot }) => sum + accent[slot], 0);
  const loudest = new Set(answers.toSorted((a, b) => b.levelDb - a.levelDb).slice(0, due));
  const mistaken = answers.filter((one) => loudest.has(one) !== (accent[one.slot] === 1)).length;
  return strain + mistaken;
}

function beatsSet({ at, around }: Score, answers: readonly Answer[], beats: number): Ms[] {
  const slots = answers.map(({ slot }) => slot);
  const end = Math.min(beats, Math.ceil(at[slots[slots.length - 1]] + 1e-9));
  const set: Ms[] = [];
  let nearest = 0;
  let [from, to] = [0, 0];
  let line: TimeLine | undefined;
  for (let beat = 0; beat <= end; beat += 1) {
    while (nearest + 1 < at.length && at[nearest] < beat) nearest += 1;
    while (from < slots.length && slots[from] < nearest - around) from += 1;
    while (to < slots.length && slots[to] <= nearest + around) to += 1;
    const near = answers.slice(from, to);
    line =
      lineThrough(
        near.map(({ slot }) => at[slot]),
        near.map(({ atMs }) => atMs),
      ) ?? line;
    if (line === undefined) return [];
    // Time never runs back, whatever the strokes do.
    const before = set[set.length - 1] ?? -Infinity;
    set.push(Math.max(timeOf(line, beat), before + 1));
  }
  return set;
}
