import type { Grid } from '../../exercises/types';
import type { Settings } from '../../settings';
import { evidenceIn, type DueCycle, type Evidence } from './evidence';
import type { Laying } from './laid-grid';
import { mod, type Lattice } from './lattice';
import type { Segment } from './segments';
import { shiftAfterPause, shiftAtStep, type Shift } from './shift';
import type { Course } from './types';
import type { Ms } from '../../units';

/** What is known before the segments are laid one after the other. */
interface ToLay {
  readonly grid: Grid;
  readonly lattice: Lattice;
  readonly segments: readonly Segment[];
  readonly due: DueCycle;
  readonly evidence: Evidence;
  /** Of the first segment. */
  readonly shift: Shift;
  /** Whether a player may go on elsewhere in the phrase. */
  readonly canShift: boolean;
  readonly settings: Settings;
}

/** The segment before, and how it lies. */
interface Before {
  readonly segment: Segment;
  readonly laying: Laying;
}

/** The phrase's places that each segment was played at, and what was found from one to the next. */
export function layingsOf(toLay: ToLay): {
  readonly layings: readonly Laying[];
  readonly course: readonly Course[];
} {
  const course: Course[] = [];
  const layings: Laying[] = [];
  toLay.segments.forEach((segment, i) => {
    const before = i === 0 ? undefined : { segment: toLay.segments[i - 1], laying: layings[i - 1] };
    const [laying, found] = layingAfter(before, segment, toLay);
    layings.push(laying);
    course.push(...found);
  });
  return { layings, course };
}

function layingAfter(
  before: Before | undefined,
  segment: Segment,
  toLay: ToLay,
): [Laying, readonly Course[]] {
  const { lattice, segments, evidence, settings, grid } = toLay;
  const place = evidence.place.subarray(segment.from, segment.to);
  const { turnedMs, movedMs } = movedBy(segment, segments[0], lattice);
  const leastMs = Math.max(settings['course.lineMs'], settings['course.lineGaps'] * grid.smallestGapMs);
  const shift = before === undefined ? toLay.shift.places : shiftOf(before, segment, toLay);
  const first = place[0] - shift;
  const laying: Laying = {
    first: before === undefined ? first : Math.max(before.laying.last + 1, first),
    last: place[place.length - 1] - shift,
    shift,
    slope: segment.slope,
    fromMs: segment.fromMs,
    addMs: before === undefined ? 0 : Math.abs(movedMs) >= leastMs ? turnedMs : turnedMs - movedMs,
  };
  const found: Course[] = [];
  if (before !== undefined && !segment.isStep) found.push(pauseOf(before, segment, first, shift, toLay));
  if (segment.slope !== 0) found.push({ kind: 'tempo', percent: -100 * segment.slope });
  if (before !== undefined && segment.isStep) {
    const ms = segment.phaseMs - before.segment.phaseMs + (shift - before.laying.shift) * lattice.stepMs;
    found.push({ kind: 'step', ...whereIs(grid, lattice, laying.first), ms });
  }
  return [laying, found];
}

/**
 * How the phase of a segment differs from an earlier one's, and by how much of that it moved: a phase is known within a
 * place only, so what turns by more than half a place stands at the next one.
 */
function movedBy(
  { phaseMs }: Pick<Segment, 'phaseMs'>,
  before: Segment,
  { stepMs, period = 1 }: Lattice,
): { readonly turnedMs: Ms; readonly movedMs: Ms; readonly places: number } {
  const turnedMs = phaseMs - before.phaseMs;
  const places = period * Math.round(turnedMs / (period * stepMs));
  return { turnedMs, movedMs: turnedMs - places * stepMs, places };
}

/** Places behind the click of a segment that isn't the first: after a pause anywhere in the phrase, at a step within one. */
function shiftOf(before: Before, segment: Segment, toLay: ToLay): number {
  const { due, evidence, canShift, shift, settings } = toLay;
  const asBefore = shiftAsBefore(before, segment, toLay);
  if (!canShift) return asBefore;
  const own = evidenceIn(evidence, segment);
  const known = { places: asBefore, mirror: shift.mirror };
  if (segment.isStep) return shiftAtStep(due, own, known, settings);
  const cycle = due.kind.length;
  const found = shiftAfterPause(due, own, known, settings);
  if (found === asBefore) return asBefore;
  const [clickPlace] = own.place;
  const { last } = before.laying;
  let first = clickPlace - found;
  while (first <= last) first += cycle;
  while (first - cycle > last && clickPlace - first !== asBefore) first -= cycle;
  return clickPlace - first;
}

/** Places behind the click of a player who goes on as before. */
const shiftAsBefore = ({ segment, laying }: Before, { phaseMs }: Segment, { lattice }: ToLay): number =>
  laying.shift - movedBy({ phaseMs }, segment, lattice).places;

function pauseOf(before: Before, segment: Segment, first: number, shift: number, toLay: ToLay): Course {
  const { grid, lattice, evidence } = toLay;
  const { place } = evidence;
  const inCycle = mod(first, lattice.perCycle);
  const isFrom = shift !== shiftAsBefore(before, segment, toLay) && lattice.inBar[inCycle] === 0;
  return {
    kind: segment.cable ? 'cable' : 'pause',
    ...whereIs(grid, lattice, before.laying.last + 1),
    slots: slotsIn(lattice, place[before.segment.to - 1] + 1, place[segment.from]),
    ...(isFrom ? { from: lattice.bar[inCycle] } : {}),
  };
}

/** Slots due from a place to another, the second left out. */
export function slotsIn({ slot, perCycle }: Lattice, from: number, to: number): number {
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
