import { atan2, cos, sin } from '../../exact';
import type { Grid } from '../../exercises/types';
import type { Settings } from '../../settings';
import type { Ms } from '../../units';
import { levelsFromLoudest } from '../slips';
import type { AlignStroke } from '../types';
import { bendsOf } from './bare';
import { blocksOf } from './blocks';
import { doublesOf, type Doubles } from './doubles';
import type { Bend, Laying } from './laid-grid';
import { latticeOf, mod, placesOf, timeOfPlace, type Lattice } from './lattice';
import { lineOrStep } from './line-or-step';
import { isPause, stretchesOf, type Absence, type Stretch } from './pauses';
import { constantShift, shiftAfterPause, shiftAtStep, type DueCycle, type Said, type Shift } from './shift';
import type { Course } from './types';

export interface CourseInput {
  /** Of moments, in whole cycles, as far as due or played, whichever is more. */
  readonly grid: Grid;
  readonly dueBars: number;
  /** Of the hands, main strokes, no echoes, in time order; those before the downbeat that lead into it too. */
  readonly strokes: readonly AlignStroke[];
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

/** A stretch with its time. */
interface Timed extends Stretch {
  readonly slope: number;
  readonly fromMs: Ms;
  /** Stroke − place at `fromMs`. */
  readonly phaseMs: Ms;
  readonly steps: boolean;
}

/**
 * What happened to a take as a whole, and the grid to judge it by.
 * @returns undefined where it was played as it was due, and where there are too few strokes to say
 */
export function courseOf(input: CourseInput): CourseFound | undefined {
  const { grid, settings, isSteady, bare } = input;
  const lattice = latticeOf(grid);
  const cycleMs = grid.bars[grid.barsPerCycle - 1].endMs - grid.bars[0].startMs;
  const barMs = cycleMs / grid.barsPerCycle;
  const doubles = doublesIn(input, lattice);
  const out = new Set(doubles?.strokes);
  const all = input.strokes.filter((_, i) => !out.has(i));
  if (all.length < FEWEST) return undefined;
  const allAt = Float64Array.from(all, ({ atMs }) => atMs);
  const dueEndMs = grid.bars[Math.min(input.dueBars, grid.bars.length) - 1].endMs;
  const stretches = stretchesOf(lattice, allAt, barMs, input.absences, settings);
  const after = stretches.findIndex(({ from }, i) => i > 0 && allAt[from] >= dueEndMs - lattice.stepMs);
  const within = after < 0 ? stretches : stretches.slice(0, after);
  const end = within[within.length - 1].to;
  const strokes = all.slice(0, end);
  const at = allAt.subarray(0, end);
  const places = placesOf(lattice, at);

  const timed = within.flatMap((stretch) => timesOf(input, lattice, at, places, stretch));
  const [first] = timed;
  const due = dueOf(grid, lattice, input.dueBars);
  const said = saidBy(grid, lattice, strokes, places, timed, at, settings);
  const firstDue = Math.max(
    0,
    lattice.slot.findIndex((slot) => slot >= 0),
  );
  const silenceMs = at[0] - (lattice.at[firstDue] + first.phaseMs);
  const late = isPause(silenceMs, barMs, lattice.stepMs, settings);
  const ofFirst = partOf(said, first.from, firstPart(timed));
  const [mostShift, lastDue] = [2 * (lattice.perCycle / grid.barsPerCycle), lastDuePlace(lattice, input)];
  const reach = reachOf(due, said, lastDue, Math.round(mostShift));
  const canShift = isSteady && lattice.period !== undefined;
  let shift: Shift = canShift
    ? constantShift(reach, ofFirst, Math.round(mostShift), settings)
    : { places: 0, mirror: false };
  if (canShift && late && shift.places === 0) {
    const places = shiftAfterPause(due, ofFirst, shift, settings);
    shift = { ...shift, places: places > said.place[first.from] ? places - due.kind.length : places };
    if (shift.places < 0) shift = { ...shift, places: 0 };
  }

  const course: Course[] = [];
  const layings: Laying[] = [];
  let current = shift.places;
  const leastMs = Math.max(settings['course.lineMs'], settings['course.lineGaps'] * grid.smallestGapMs);
  timed.forEach((stretch, i) => {
    const before = layings[i - 1];
    const part = partOf(said, stretch.from, stretch.to);
    const clickPlace = part.place[0];
    const isAnew = i > 0 && !stretch.steps;
    if (isAnew && canShift) {
      const found = shiftAfterPause(due, part, { places: current, mirror: shift.mirror }, settings);
      let from = clickPlace - found;
      while (from <= before.last) from += due.kind.length;
      while (from - due.kind.length > before.last && clickPlace - from !== current) from -= due.kind.length;
      if (found !== current) current = clickPlace - from;
    }
    const turned = stretch.phaseMs - first.phaseMs;
    const wrapped = turned - lattice.stepMs * Math.round(turned / lattice.stepMs);
    let stepMs = wrapped;
    if (stretch.steps && canShift) {
      const moved = shiftAtStep(due, part, { places: current, mirror: shift.mirror }, settings);
      stepMs += (moved - current) * lattice.stepMs;
      current = moved;
    }
    const firstPlace = clickPlace - current;
    if (isAnew) course.push(pauseOf(grid, lattice, timed[i - 1], stretch, said, before, firstPlace, current));
    layings.push({
      first: before === undefined ? firstPlace : Math.max(before.last + 1, firstPlace),
      last: part.place[part.place.length - 1] - current,
      shift: current,
      slope: stretch.slope,
      fromMs: stretch.fromMs,
      addMs: i > 0 && Math.abs(wrapped) >= leastMs ? wrapped : 0,
    });
    if (stretch.slope !== 0) course.push({ kind: 'tempo', percent: -100 * stretch.slope });
    if (stretch.steps) course.push(stepOf(grid, lattice, layings[i], stepMs));
  });

  const lastPlace = layings[layings.length - 1].last;
  const begun = startOf(lattice, layings[0], first.phaseMs, lastPlace, lastDue, settings);
  if (begun?.kind === 'latency')
    layings.forEach((one, i) => (layings[i] = { ...one, addMs: one.addMs + first.phaseMs }));
  if (begun !== undefined) course.unshift(begun);
  else if (late)
    course.unshift({ kind: 'pause', bar: 0, slot: 0, slots: slotsIn(lattice, 0, layings[0].first) });
  if (shift.mirror) course.unshift({ kind: 'mirror' });
  if (doubles !== undefined) course.unshift({ kind: 'doubles', share: doubles.share, ms: doubles.ms });
  const bends =
    isSteady && timed.length === 1 && shift.places === 0 && first.slope === 0
      ? bendsOf((isIn) => blocksOf(lattice, places, at, 0, at.length, isIn), grid, bare, settings)
      : [];
  if (bends.length > 0) course.push({ kind: 'tempo', percent: -100 * meanSlope(bends), bare: true });
  if (course.length === 0) return undefined;
  return {
    course,
    doubles,
    layings,
    bends,
    mirror: shift.mirror,
    open: { start: late, end: begun?.kind !== 'latency' && current !== 0 },
    lastPlace,
    lattice,
    untilMs: at[end - 1],
  };
}

const FEWEST = 8;

const meanSlope = (bends: readonly Bend[]): number =>
  bends.reduce((sum, { slope }) => sum + slope, 0) / bends.length;

/** The stretches that follow the first without a pause are of its shift. */
function firstPart(timed: readonly Timed[]): number {
  let i = 1;
  while (i < timed.length && timed[i].steps) i += 1;
  return timed[i - 1].to;
}

function doublesIn({ grid, strokes, settings }: CourseInput, lattice: Lattice): Doubles | undefined {
  const at = Float64Array.from(strokes, ({ atMs }) => atMs);
  const places = placesOf(lattice, at);
  const phase = circularMean(places, 0, places.length, () => 0);
  const nearest = Int32Array.from(places, (place) => Math.floor(place - phase + HALF));
  const isGraced = (place: number): boolean => {
    const slot = lattice.slot[Math.min(lattice.slot.length - 1, Math.max(0, place))];
    return slot >= 0 && grid.slots[slot].graces.length > 0;
  };
  const taken = new Set(nearest);
  const isEmpty = (place: number): boolean =>
    place >= 0 && place < lattice.slot.length && lattice.slot[place] >= 0 && !taken.has(place);
  return doublesOf(strokes, nearest, grid.smallestGapMs, { isGraced, isEmpty }, settings);
}

const HALF = 0.5;

/** Mean of what lies over a whole place, −½ to ½ of a place, less what is expected of each stroke. */
function circularMean(
  places: Float64Array,
  from: number,
  to: number,
  expected: (i: number) => number,
): number {
  let [cosines, sines] = [0, 0];
  for (let i = from; i < to; i += 1) {
    const over = places[i] - expected(i);
    const angle = 2 * Math.PI * (over - Math.floor(over));
    cosines += cos(angle);
    sines += sin(angle);
  }
  return atan2(sines, cosines) / (2 * Math.PI);
}

/** A stretch, or the two it falls into at a step, with the line each keeps. */
function timesOf(
  { grid, settings, isSteady, bare }: CourseInput,
  lattice: Lattice,
  at: Float64Array,
  places: Float64Array,
  stretch: Stretch,
): readonly Timed[] {
  const { from, to } = stretch;
  const timedAs = (part: Stretch, slope: number, steps: boolean): Timed => {
    const fromMs = part.from === 0 ? lattice.at[0] : at[part.from];
    const perPlace = 1 / lattice.stepMs;
    const phase = circularMean(places, part.from, part.to, (i) => slope * (at[i] - fromMs) * perPlace);
    return { ...part, slope, fromMs, phaseMs: phase * lattice.stepMs, steps };
  };
  if (!isSteady) return [timedAs(stretch, 0, false)];
  const blocks = blocksOf(lattice, places, at, from, to, (bar) => bare[bar] !== true);
  const course = lineOrStep(blocks, grid.smallestGapMs, settings);
  if (course.kind === 'step' && !bare.includes(true)) {
    const split = blocks[course.block].from;
    return [
      timedAs({ ...stretch, to: split }, 0, false),
      timedAs({ ...stretch, from: split, cable: false }, 0, true),
    ];
  }
  return [timedAs(stretch, course.kind === 'line' ? course.slope : 0, false)];
}

function dueOf(grid: Grid, lattice: Lattice, dueBars: number): DueCycle {
  const { perCycle, slot, inBar } = lattice;
  const slotAt = (place: number): (typeof grid.slots)[number] | undefined =>
    slot[place] < 0 ? undefined : grid.slots[slot[place]];
  const bars = Math.ceil(dueBars / grid.barsPerCycle);
  return {
    kind: Int8Array.from({ length: perCycle }, (_, place) => {
      const kind = slotAt(place)?.kind;
      return kind === undefined ? 0 : kind === 'accent' ? 1 : -1;
    }),
    hand: Int8Array.from({ length: perCycle }, (_, place) => {
      const here = slotAt(place);
      return here === undefined || here.together === 2 ? 0 : here.hand === 'R' ? 1 : -1;
    }),
    barStart: Uint8Array.from({ length: perCycle }, (_, place) => Number(inBar[place] === 0)),
    places: bars * perCycle,
    period: lattice.period ?? 1,
  };
}

/** The phrase goes on by whole cycles where the player did, more than a shift may be. */
function reachOf(due: DueCycle, { place }: Said, lastDue: number, mostShift: number): DueCycle {
  const last = place[place.length - 1];
  if (last <= lastDue + mostShift) return { ...due, places: Math.max(due.places, lastDue + 1) };
  return { ...due, places: Math.ceil((last + 1) / due.kind.length) * due.kind.length };
}

function lastDuePlace({ bar, slot }: Lattice, { dueBars }: CourseInput): number {
  let last = bar.length - 1;
  while (last > 0 && (bar[last] >= dueBars || slot[last] < 0)) last -= 1;
  return last;
}

/** What each stroke says of which place it is for. */
function saidBy(
  grid: Grid,
  lattice: Lattice,
  strokes: readonly AlignStroke[],
  places: Float64Array,
  timed: readonly Timed[],
  at: Float64Array,
  settings: Settings,
): Said {
  const place = new Int32Array(strokes.length);
  for (const { from, to, slope, fromMs, phaseMs } of timed) {
    for (let i = from; i < to; i += 1) {
      const over = (phaseMs + slope * (at[i] - fromMs)) / lattice.stepMs;
      place[i] = Math.floor(places[i] - over + HALF);
    }
  }
  const hand = Int8Array.from(strokes, (stroke) => (stroke.hand === null ? 0 : stroke.hand === 'R' ? 1 : -1));
  const kind = new Float64Array(strokes.length);
  const accents = grid.slots.filter((slot) => slot.kind === 'accent').length / grid.slots.length;
  const isVoiced = grid.slots.some(({ surface }) => surface !== null);
  const level = Float64Array.from(strokes, ({ levelDb }, i) => {
    const slot = lattice.slot[mod(place[i], lattice.perCycle)];
    return levelDb - (slot < 0 ? 0 : grid.slots[slot].shiftDb);
  });
  const levels = isVoiced
    ? undefined
    : levelsFromLoudest(level, Math.round(accents * level.length), settings);
  const apart = levels === undefined ? 0 : (levels.accent - levels.soft) / levels.spread;
  if (levels !== undefined && apart >= settings['slip.leastSeparation']) {
    const most = settings['slip.mostEvidence'];
    const middle = (levels.accent + levels.soft) / 2;
    for (let i = 0; i < kind.length; i += 1) {
      kind[i] = 0.5 * Math.max(-most, Math.min(most, (apart / levels.spread) * (level[i] - middle)));
    }
  }
  return { place, kind, hand };
}

const partOf = ({ place, kind, hand }: Said, from: number, to: number): Said => ({
  place: place.subarray(from, to),
  kind: kind.subarray(from, to),
  hand: hand.subarray(from, to),
});

function slotsIn({ slot, perCycle }: Lattice, from: number, to: number): number {
  let slots = 0;
  for (let place = from; place < to; place += 1) slots += Number(slot[mod(place, perCycle)] >= 0);
  return slots;
}

/** Where a place stands in the take. */
function whereIs(
  grid: Grid,
  lattice: Lattice,
  place: number,
): { readonly bar: number; readonly slot: number } {
  const cycles = Math.floor(place / lattice.perCycle);
  const inCycle = mod(place, lattice.perCycle);
  const bar = lattice.bar[inCycle];
  const from = inCycle - lattice.inBar[inCycle];
  return { bar: bar + cycles * grid.barsPerCycle, slot: slotsIn(lattice, from, inCycle) };
}

function pauseOf(
  grid: Grid,
  lattice: Lattice,
  before: Timed,
  stretch: Timed,
  { place }: Said,
  laid: Laying,
  first: number,
  shift: number,
): Course {
  const slots = slotsIn(lattice, place[before.to - 1] + 1, place[stretch.from]);
  const inCycle = mod(first, lattice.perCycle);
  const isFrom = shift !== laid.shift && lattice.inBar[inCycle] === 0;
  return {
    kind: stretch.cable ? 'cable' : 'pause',
    ...whereIs(grid, lattice, laid.last + 1),
    slots,
    ...(isFrom ? { from: lattice.bar[inCycle] } : {}),
  };
}

function stepOf(grid: Grid, lattice: Lattice, { first }: Laying, ms: Ms): Course {
  return { kind: 'step', ...whereIs(grid, lattice, first), ms };
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
