import type { Grid } from '../exercises/types';
import { countWhile } from '../ordered';
import type { Settings } from '../settings';
import { dueCycleOf, evidenceOf } from './course/evidence';
import { latticeOf, latticeTo, placesOf, timeOfPlace, type Lattice, type OnLattice } from './course/lattice';
import { segmentsOf, type Segment } from './course/segments';
import { shiftAmong } from './course/shift';
import { resultantLength, steadyBeatMs } from './fit';
import type { Reading } from './follow-laid';
import { swingIn } from './follow-swing';
import { firstBars } from './targets';
import type { AlignStroke } from './types';

/** What a running take is read against, made once: where strokes can stand, and the bars in which a shift is looked for. */
export interface Readable {
  readonly lattice: Lattice;
  readonly begin: Grid;
  /** False in free time and in ramps: there the time is the player's own. */
  readonly isSteady: boolean;
}

/** Bars by which a take may be late, as in the whole take. */
const MOST_BARS = 2;
/** Bars that are over while a shift is still looked for: a player two bars late has then played two. */
const BARS_TO_SHIFT = 2 * MOST_BARS;
/** Fewer strokes say nothing. */
const FEWEST = 8;

/** Slots that are read: after so many what was read stays, so that no step ever takes long. */
export const READ_SLOTS = 4096;

export function readableOf(grid: Grid, isOwnTime: boolean): Readable {
  const bars = countWhile(grid.bars.length, (bar) => grid.bars[bar].firstSlot < READ_SLOTS);
  return {
    lattice: latticeOf(firstBars(grid, Math.max(grid.barsPerCycle, bars))),
    begin: firstBars(grid, Math.max(grid.barsPerCycle, MOST_BARS) + BARS_TO_SHIFT),
    isSteady: !isOwnTime && steadyBeatMs(grid) !== undefined,
  };
}

/** Strokes that are paired, as they were struck, in time order. */
export interface SoFar {
  readonly at: Float64Array;
  readonly level: Float64Array;
  /** R +1, L −1, not known 0. */
  readonly hand: Int8Array;
  /** Bars that are over. */
  readonly bars: number;
}

/**
 * How the strokes so far lie against the click, by the rules of the whole take: a constant late start or a
 * latency, a tempo of their own, a swing; or that nothing of the kind can be told. A shift is looked for until four bars
 * are over, and stays then; the rest until about four thousand strokes. Linear in the strokes.
 * @param before what was read last
 */
export function readSoFar(
  { lattice: whole, begin, isSteady }: Readable,
  soFar: SoFar,
  before: Reading,
  settings: Settings,
): Reading {
  const { at, hand, bars } = soFar;
  const count = at.length;
  const last = countWhile(whole.at.length, (place) => whole.at[place] <= at[count - 1]) - 1;
  if (count < FEWEST || last === whole.at.length - 1) return before;
  const lattice = latticeTo(whole, Math.max(begin.barsPerCycle - 1, whole.bar[Math.max(0, last)]));
  const strokes: OnLattice = { lattice, at, places: placesOf(lattice, at) };
  const segment = segmentIn(strokes, isSteady, begin, settings);
  if (isScattered(strokes, segment, settings)) return { ...before, slope: 0, swingMs: 0, told: 'nothing' };
  const isShifting = isSteady && lattice.period !== undefined && bars <= BARS_TO_SHIFT;
  const found = isShifting ? shiftIn(begin, soFar, strokes, segment, settings) : before.places;
  const foundMs = timeOfPlace(lattice, found) - timeOfPlace(lattice, 0);
  // What the running offset reaches is left to it.
  const isOffset = Math.abs(foundMs + segment.phaseMs) <= settings['offset.reachGaps'] * begin.smallestGapMs;
  const places = isOffset ? 0 : found;
  return {
    places,
    lateMs: isOffset ? 0 : foundMs,
    slope: segment.slope,
    fromMs: segment.fromMs,
    ...swingIn({ grid: begin, strokes, segment, places }, hand, settings),
  };
}

/** All strokes as one, with the line they keep. A step is no tempo: what lies before and behind one has none. */
function segmentIn(strokes: OnLattice, isSteady: boolean, grid: Grid, settings: Settings): Segment {
  const all = { from: 0, to: strokes.at.length, cable: false };
  const [first, second] = segmentsOf(all, strokes, { grid, isSteady, bare: [], settings });
  if (second === undefined) return first;
  return segmentsOf(all, strokes, { grid, isSteady: false, bare: [], settings })[0];
}

/** The last strokes, that say whether early and late can be told. */
const LAST = 64;

/** The last strokes lie anywhere in their partials, by the rule of what doesn't fit: another subdivision, or no time at all. */
function isScattered({ places, at, lattice }: OnLattice, segment: Segment, settings: Settings): boolean {
  const { to, slope, fromMs } = segment;
  if (to < settings['fit.fewestStrokes']) return false;
  const from = Math.max(0, to - LAST);
  const gaps = places
    .slice(from, to)
    .map((place, i) => place - (slope * (at[from + i] - fromMs)) / lattice.stepMs);
  const factor = settings['fit.resultantFactor'];
  return resultantLength(gaps) < Math.max(settings['fit.leastResultant'], factor / Math.sqrt(gaps.length));
}

/** Whoever is late begins with the phrase's first stroke, or leaves out one; one or two strokes before it are strays. */
const beginnings = (place: Int32Array): readonly number[] =>
  [...new Set([...place.subarray(0, 3)].flatMap((first) => [first, first - 1]))].sort((a, b) => a - b);

function shiftIn(
  begin: Grid,
  { at, level, hand }: SoFar,
  strokes: OnLattice,
  segment: Segment,
  settings: Settings,
): number {
  const played = Array.from(at, (atMs, i): AlignStroke => {
    const known = hand[i] === 0 ? null : hand[i] > 0 ? 'R' : 'L';
    return { atMs, levelDb: level[i], hand: known, echoLike: false };
  });
  const due = dueCycleOf(begin, strokes.lattice, begin.bars.length);
  const evidence = evidenceOf(begin, played, strokes, [segment], settings);
  const most = Math.round((MOST_BARS * due.kind.length) / begin.barsPerCycle);
  const isLate = (places: number): boolean => places > 0 && places <= most && places % due.period === 0;
  return shiftAmong(due, evidence, [0, ...beginnings(evidence.place).filter(isLate)], settings).places;
}
