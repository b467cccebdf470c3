import { columnOf } from '../../column';
import type { Grid } from '../../exercises/types';
import type { Settings } from '../../settings';
import type { Ms } from '../../units';
import type { AlignStroke } from '../types';
import { bendsOf } from './bare';
import { blocksOf } from './blocks';
import { doublesOf, type Doubles } from './doubles';
import { dueCycleOf, evidenceIn, evidenceOf, type DueCycle, type Evidence } from './evidence';
import type { Bend, Laying } from './laid-grid';
import { latticeOf, placesOf, timeOfPlace, type Lattice, type OnLattice } from './lattice';
import { layingsOf, slotsIn } from './layings';
import { isPause, stretchesOf, type Absence, type Stretch } from './pauses';
import { phaseOf, segmentsOf, type Segment } from './segments';
import { constantShift, shiftAfterPause, type Shift } from './shift';
import type { Course } from './types';

interface CourseInput {
  /** Of onsets, in whole cycles, as far as due or played, whichever is more. */
  readonly grid: Grid;
  readonly dueBars: number;
  /** Of the hands, main strokes, no echoes, in time order; those before the downbeat that lead into it too. */
  readonly strokes: readonly AlignStroke[];
  /** When echo-like strokes came, in order: some are strokes, soft and soon after an accent. */
  readonly echoesMs: readonly Ms[];
  /** False in ramps and in free time: there the time is the player's own. */
  readonly isSteady: boolean;
  readonly absences: readonly Absence[];
  /** Bars in which the click was silent. */
  readonly bare: readonly boolean[];
  readonly settings: Settings;
}

/** What was found, and how the grid is to be laid under it. */
export interface CourseFound {
  readonly course: readonly Course[];
  readonly doubles: Doubles | undefined;
  readonly layings: readonly Laying[];
  readonly bends: readonly Bend[];
  readonly mirror: boolean;
  readonly open: { readonly start: boolean; readonly end: boolean };
  /** The last place that has a stroke. */
  readonly lastPlace: number;
  readonly lattice: Lattice;
  /** The last stroke's time: what comes after is no part of the take. */
  readonly untilMs: Ms;
}

/**
 * What happened to a take as a whole, and the grid to judge it by.
 * @returns undefined where it was played as it was due, and where there are too few strokes to say
 */
export function courseOf(input: CourseInput): CourseFound | undefined {
  const { grid, settings, isSteady, bare } = input;
  const lattice = latticeOf(grid);
  const doubles = doublesIn(input, lattice);
  const out = new Set(doubles?.strokes);
  const all = input.strokes.filter((_, i) => !out.has(i));
  if (all.length < FEWEST) return undefined;
  const stretches = stretchesPlayed(input, lattice, all);
  const strokes = all.slice(0, stretches[stretches.length - 1].to);
  const onLattice = strokesOn(lattice, strokes);
  const segments = stretches.flatMap((stretch) => segmentsOf(stretch, onLattice, input));
  const evidence = evidenceOf(grid, strokes, onLattice, segments, settings);
  const canShift = isSteady && lattice.period !== undefined;
  const isLate = isSilentFirst(input, onLattice, segments[0]);
  const lastDue = lastDuePlace(lattice, input);
  const due = dueCycleOf(grid, lattice, input.dueBars);
  const shift = canShift
    ? shiftOf({ due, evidence, segments, lattice, isLate, lastDue }, input)
    : { places: 0, mirror: false };
  const laid = layingsOf({ grid, lattice, segments, due, evidence, shift, canShift, settings });

  const [first] = segments;
  const lastLaying = laid.layings[laid.layings.length - 1];
  const begun = startOf(lattice, laid.layings[0], first.phaseMs, lastLaying.last, lastDue, settings);
  const lateMs = begun?.kind === 'latency' ? first.phaseMs : 0;
  const bends =
    isSteady && segments.length === 1 && shift.places === 0 && first.slope === 0
      ? bendsOf((isIn) => blocksOf(onLattice, first, isIn), grid, bare, settings)
      : [];
  const course: Course[] = [];
  if (doubles !== undefined) course.push({ kind: 'doubles', share: doubles.share, ms: doubles.ms });
  if (shift.mirror) course.push({ kind: 'mirror' });
  if (begun !== undefined) course.push(begun);
  else if (isLate) {
    course.push({ kind: 'pause', bar: 0, slot: 0, slots: slotsIn(lattice, 0, laid.layings[0].first) });
  }
  course.push(...laid.course);
  if (bends.length > 0) course.push({ kind: 'tempo', percent: -100 * meanSlope(bends), bare: true });
  if (course.length === 0) return undefined;
  return {
    course,
    doubles,
    layings: laid.layings.map((one) => ({ ...one, addMs: one.addMs + lateMs })),
    bends,
    mirror: shift.mirror,
    open: { start: isLate, end: begun?.kind !== 'latency' && lastLaying.shift !== 0 },
    lastPlace: lastLaying.last,
    lattice,
    untilMs: strokes[strokes.length - 1].atMs,
  };
}

/** Stretches without a pause, as far as the phrase was due: what follows a pause behind its end is no part of the take. */
function stretchesPlayed(
  { grid, dueBars, absences, settings }: CourseInput,
  lattice: Lattice,
  strokes: readonly AlignStroke[],
): readonly Stretch[] {
  const at = timesOf(strokes);
  const endMs = grid.bars[Math.min(dueBars, grid.bars.length) - 1].endMs;
  const stretches = stretchesOf(lattice, at, barMsOf(grid), absences, settings);
  const after = stretches.findIndex(({ from }, i) => i > 0 && at[from] >= endMs - lattice.stepMs);
  return after < 0 ? stretches : stretches.slice(0, after);
}

const timesOf = (strokes: readonly AlignStroke[]): Float64Array =>
  columnOf(strokes.length, (i) => strokes[i].atMs);

function strokesOn(lattice: Lattice, strokes: readonly AlignStroke[]): OnLattice {
  const at = timesOf(strokes);
  return { lattice, at, places: placesOf(lattice, at) };
}

/** Mean length of a bar. */
const barMsOf = ({ bars, barsPerCycle }: Grid): Ms =>
  (bars[barsPerCycle - 1].endMs - bars[0].startMs) / barsPerCycle;

/** Whether so long passed before the first stroke that it is a pause. */
function isSilentFirst(
  { grid, settings }: CourseInput,
  { lattice, at }: OnLattice,
  { phaseMs }: Segment,
): boolean {
  const firstDue = Math.max(
    0,
    lattice.slot.findIndex((slot) => slot >= 0),
  );
  const silenceMs = at[0] - (lattice.at[firstDue] + phaseMs);
  return isPause(silenceMs, barMsOf(grid), lattice.stepMs, settings);
}

interface BeforeShift {
  readonly due: DueCycle;
  readonly evidence: Evidence;
  readonly segments: readonly Segment[];
  readonly lattice: Lattice;
  /** Whether a pause came before the first stroke. */
  readonly isLate: boolean;
  readonly lastDue: number;
}

/** How far behind the click the player began, by all strokes until the first pause, and whether with the other hand. */
function shiftOf(
  { due, evidence, segments, lattice, isLate, lastDue }: BeforeShift,
  { grid, settings }: CourseInput,
): Shift {
  const most = Math.round((MOST_BARS * lattice.perCycle) / grid.barsPerCycle);
  const firstPart = evidenceIn(evidence, { from: 0, to: endOfFirstPart(segments) });
  const shift = constantShift(reachOf(due, evidence, lastDue, most), firstPart, most, settings);
  if (!isLate || shift.places !== 0) return shift;
  const found = shiftAfterPause(due, firstPart, shift, settings);
  const places = found > firstPart.place[0] ? found - due.kind.length : found;
  return { ...shift, places: Math.max(0, places) };
}

/** Bars by which a take may lie behind what was due, grading.md section 4a. */
const MOST_BARS = 2;

/** The segments that follow the first without a pause are of its shift. */
function endOfFirstPart(segments: readonly Segment[]): number {
  let i = 1;
  while (i < segments.length && segments[i].isStep) i += 1;
  return segments[i - 1].to;
}

const FEWEST = 8;

const meanSlope = (bends: readonly Bend[]): number =>
  bends.reduce((sum, { slope }) => sum + slope, 0) / bends.length;

function doublesIn(
  { grid, strokes, echoesMs, settings }: CourseInput,
  lattice: Lattice,
): Doubles | undefined {
  const { places } = strokesOn(lattice, strokes);
  const phase = phaseOf(places, { from: 0, to: places.length });
  const nearestOf = (lying: Float64Array): Float64Array =>
    columnOf(lying.length, (i) => Math.floor(lying[i] - phase + HALF));
  const nearest = nearestOf(places);
  const isGraced = (place: number): boolean => {
    const slot = lattice.slot[Math.min(lattice.slot.length - 1, Math.max(0, place))];
    return slot >= 0 && grid.slots[slot].graces.length > 0;
  };
  const taken = new Set([...nearest, ...nearestOf(placesOf(lattice, echoesMs))]);
  const isEmpty = (place: number): boolean =>
    place >= 0 && place < lattice.slot.length && lattice.slot[place] >= 0 && !taken.has(place);
  return doublesOf(strokes, nearest, grid.smallestGapMs, { isGraced, isEmpty }, settings);
}

const HALF = 0.5;

/** The phrase goes on by whole cycles where the player did, more than a shift may be. */
function reachOf(due: DueCycle, { place }: Evidence, lastDue: number, mostShift: number): DueCycle {
  const last = place[place.length - 1];
  if (last <= lastDue + mostShift) return { ...due, places: Math.max(due.places, lastDue + 1) };
  return { ...due, places: Math.ceil((last + 1) / due.kind.length) * due.kind.length };
}

function lastDuePlace({ bar, slot }: Lattice, { dueBars }: CourseInput): number {
  let last = bar.length - 1;
  while (last > 0 && (bar[last] >= dueBars || slot[last] < 0)) last -= 1;
  return last;
}

/** A latency, a late or an early start; undefined where it was begun in its place. */
function startOf(
  lattice: Lattice,
  { shift }: Laying,
  phaseMs: Ms,
  lastPlace: number,
  lastDue: number,
  settings: Settings,
): Course | undefined {
  if (shift === 0) return undefined;
  const ms = timeOfPlace(lattice, shift) - timeOfPlace(lattice, 0) + phaseMs;
  const slots = Math.abs(shift);
  if (shift < 0) return { kind: 'early start', slots };
  if (!(ms > 0 && ms <= settings['course.latencyMs'])) return { kind: 'late start', slots };
  if (lastPlace === lastDue) return { kind: 'latency', ms };
  return lastPlace + shift === lastDue ? { kind: 'late start', slots } : { kind: 'late start', slots, ms };
}
