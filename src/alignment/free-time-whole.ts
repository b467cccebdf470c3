import type { Ms } from '../units';
import { answered, FIRST_STROKES, firstBeatMs, nextTime, lineThrough, notBegun, timeOf } from './free-time';
import type { FirstTempo, OwnTime, BeatGrid, TimeLine } from './free-time';
import type { AlignStroke } from './types';

/** The time of a whole take without a click. */
interface TimeKept {
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
  readonly misfit: number;
}

/** How a take may begin: the first stroke that answers a slot, that slot, and the tempo. */
interface Beginning {
  readonly stroke: number;
  readonly slot: number;
  readonly firstTempo: FirstTempo;
}

/** A stroke may be stray, and a slot be left out: of each the first four are tried. */
const BEGINNINGS = [0, 1, 2, 3].flatMap((stroke) => [0, 1, 2, 3].map((slot) => ({ stroke, slot })));
/** How far apart strokes are that tell the tempo: each is tried. */
const APARTS = [1, 2, 4];
const FEWEST = 4;
/** Strokes each beginning is tried on. */
const TRIED = 96;

/**
 * Tempo and phase of a take from its strokes alone. Stroke by stroke a line through the last 16 answered slots foretells
 * the next; then each beat is set by the line through the 16 answered slots either side of it (fewer where the tempo is
 * meant to move), which knows what came after too. A take may begin with a stroke that was none, or without its first: of several beginnings the one stands
 * under which the fewest slots are left empty, strokes left over and accents and soft strokes mistaken for one another.
 * @param strokes of the hands, in time order
 * @param beats of the phrase that `beatGrid` covers
 * @returns undefined of fewer than four strokes, and where they tell no time
 */
export function timeKept(
  beatGrid: BeatGrid,
  strokes: readonly TimedStroke[],
  beats: number,
): TimeKept | undefined {
  // What looks like a pad's echo may be a ghost note at a fast tempo: whichever leaves less unexplained.
  const readings = [strokes.filter(({ echoLike }) => !echoLike), strokes];
  let best: { readonly answers: readonly Answer[]; readonly cost: number } | undefined;
  for (const [reading, strokesRead] of readings.entries()) {
    if (reading > 0 && strokesRead.length === readings[0].length) break;
    for (const beginning of beginningsOf(beatGrid, strokesRead)) {
      const tried = answersFrom(beatGrid, strokesRead.slice(0, TRIED), beginning);
      if (tried === undefined) continue;
      const isPlain = beginning.stroke === 0 && beginning.slot === 0;
      const cost = costOf(beatGrid, tried) + (isPlain ? 0 : beatGrid.windows.unusual);
      if (best !== undefined && cost >= best.cost) continue;
      const { answers } = answersFrom(beatGrid, strokesRead, beginning) ?? tried;
      best = { answers, cost };
    }
  }
  const beatsMs = best === undefined ? [] : beatsSet(beatGrid, best.answers, beats);
  return beatsMs.length < 2 ? undefined : { beatsMs };
}

type TimedStroke = Pick<AlignStroke, 'atMs' | 'levelDb' | 'echoLike'>;

function answersFrom(
  beatGrid: BeatGrid,
  strokes: readonly TimedStroke[],
  beginning: Beginning,
): Tried | undefined {
  if (strokes.length < beginning.stroke + FEWEST || beatGrid.at.length < beginning.slot + FEWEST)
    return undefined;
  const found: Answer[] = [];
  const { firstTempo } = beginning;
  let state: OwnTime = notBegun;
  for (const [index, { atMs, levelDb }] of strokes.entries()) {
    if (index < beginning.stroke) {
      state = { ...state, misfit: state.misfit + 1 };
      continue;
    }
    const next =
      index === beginning.stroke
        ? answered(beatGrid, state, beginning.slot, atMs, firstTempo)
        : nextTime(beatGrid, state, atMs, firstTempo);
    if (next.times !== state.times) {
      if (next.slot === state.slot) found.pop();
      found.push({ slot: next.slot, atMs, levelDb });
    }
    state = next;
  }
  return { answers: found, misfit: state.misfit };
}

/** Every beginning at every tempo that the first strokes may mean. */
function beginningsOf(beatGrid: BeatGrid, strokes: readonly TimedStroke[]): readonly Beginning[] {
  const times: Ms[] = [];
  for (const { atMs } of strokes.slice(0, FIRST_STROKES)) {
    if (times.length > 0 && atMs - times[times.length - 1] <= beatGrid.leadMs) times.pop();
    times.push(atMs);
  }
  const tempos = APARTS.flatMap((apart) => firstBeatMs(beatGrid, times, apart) ?? []);
  if (tempos.length === 0) return [{ stroke: 0, slot: 0, firstTempo: { beatMs: 1, isKnown: false } }];
  return tempos.flatMap((beatMs) =>
    BEGINNINGS.map(({ stroke, slot }): Beginning => ({
      stroke,
      slot,
      firstTempo: { beatMs, isKnown: true },
    })),
  );
}

/** What did not fit, and accents and soft strokes in each other's places. */
function costOf({ accent }: BeatGrid, { answers, misfit }: Tried): number {
  const due = answers.reduce((sum, { slot }) => sum + accent[slot], 0);
  const loudest = new Set(answers.toSorted((a, b) => b.levelDb - a.levelDb).slice(0, due));
  const mistaken = answers.filter((one) => loudest.has(one) !== (accent[one.slot] === 1)).length;
  return misfit + mistaken;
}

function beatsSet({ at, windows }: BeatGrid, answers: readonly Answer[], beats: number): Ms[] {
  const slots = answers.map(({ slot }) => slot);
  const end = Math.min(beats, Math.ceil(at[slots[slots.length - 1]] + 1e-9));
  const set: Ms[] = [];
  let nearest = 0;
  let [from, to] = [0, 0];
  let line: TimeLine | undefined;
  for (let beat = 0; beat <= end; beat += 1) {
    while (nearest + 1 < at.length && at[nearest] < beat) nearest += 1;
    while (from < slots.length && slots[from] < nearest - windows.around) from += 1;
    while (to < slots.length && slots[to] <= nearest + windows.around) to += 1;
    const near = answers.slice(from, to);
    line =
      lineThrough(
        near.map(({ slot }) => at[slot]),
        near.map(({ atMs }) => atMs),
        windows,
      ) ?? line;
    if (line === undefined) return [];
    // Time never runs back, whatever the strokes do.
    const before = set[set.length - 1] ?? -Infinity;
    set.push(Math.max(timeOf(line, beat), before + 1));
  }
  return set;
}
