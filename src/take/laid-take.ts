import { courseOf, type CourseFound } from '../alignment/course/course';
import { laidGrid } from '../alignment/course/laid-grid';
import { rateOf } from '../alignment/course/rate';
import type { Absence } from '../alignment/course/pauses';
import type { Rate } from '../alignment/course/types';
import { onsetsOf } from '../alignment/onsets';
import { bareBars } from '../exercises/click-plan';
import type { Grid } from '../exercises/types';
import type { Take } from '../sessions/types';
import type { Settings } from '../settings';
import type { Stroke } from '../stroke';
import type { Ms } from '../units';
import type { Grids } from './grids-of';
import { closestPairNotes } from './merged-pairs';

type Timed = Pick<Take, 'phrase' | 'tempo' | 'clicks' | 'events'> & { readonly downbeatMs: Ms };

/** A grid laid as a take was played, and what was found. */
export interface LaidTake {
  readonly found: CourseFound;
  readonly grid: Grid;
  readonly notPlayed: Uint8Array;
  /** Strokes given that came twice. */
  readonly doubles: ReadonlySet<Stroke>;
  /** What comes after is no part of the take. */
  readonly untilMs: Ms;
}

/**
 * How many times as fast as the click asks a take was played, by its strokes without graces; undefined where its time is its own, or as asked. Slower than
 * asked is not told of a pad that may have merged strokes.
 */
export function rateOfTake(
  { phrase, tempo, downbeatMs, rig }: Timed & Pick<Take, 'rig'>,
  grids: Grids,
  main: readonly Stroke[],
  settings: Settings,
): Rate | undefined {
  if (!('bpm' in tempo)) return undefined;
  const { grid } = onsetsOf(grids(phrase.cycles * phrase.bars.length));
  const dueMs = grid.slots.map(({ atMs }) => atMs);
  const onsetsMs = onsetTimes(grid, main, settings);
  const rate = rateOf(
    dueMs,
    onsetsMs.filter((atMs) => atMs >= downbeatMs - grid.smallestGapMs),
    settings,
  );
  const isMerged = closestPairNotes(rig, grid).length > 0;
  return rate !== undefined && rate < 1 && isMerged ? undefined : rate;
}

/** When strokes came; both of a unison once. */
function onsetTimes({ slots, smallestGapMs }: Grid, strokes: readonly Stroke[], settings: Settings): Ms[] {
  const times = strokes.map(({ atMs }) => atMs);
  if (slots.every(({ together }) => together === 1)) return times;
  const reachMs = Math.min(settings['unison.mostMs'], settings['unison.mostGaps'] * smallestGapMs);
  let last = -Infinity;
  return times.filter((atMs) => {
    if (atMs - last <= reachMs) return false;
    last = atMs;
    return true;
  });
}

/**
 * What happened to the take as a whole, and its grid laid so.
 * @param strokes of the hands, in time order; @param graces those of them that are graces
 * @returns undefined where it was played as it was due
 */
export function laidTake(
  take: Timed,
  grids: Grids,
  strokes: readonly Stroke[],
  graces: ReadonlySet<Stroke>,
  settings: Settings,
): LaidTake | undefined {
  const { phrase, tempo, downbeatMs } = take;
  if (strokes.length === 0) return undefined;
  const dueBars = phrase.cycles * phrase.bars.length;
  const { grid } = onsetsOf(gridTo(take, grids, strokes[strokes.length - 1].atMs));
  const from = firstOf(grid, strokes, downbeatMs);
  const ownSlots = strokes.slice(from).filter((stroke) => !graces.has(stroke));
  const main = ownSlots.filter(({ echoLike }) => !echoLike);
  const bare = bareBars(
    take.clicks?.bare ?? null,
    grid.bars.map(({ role }) => role),
  );
  const found = courseOf({
    grid,
    dueBars,
    strokes: main,
    echoesMs: ownSlots.flatMap(({ atMs, echoLike }) => (echoLike ? [atMs] : [])),
    isSteady: 'bpm' in tempo,
    absences: absencesOf(take),
    bare,
    settings,
  });
  if (found === undefined) return undefined;
  const { bars, isBrokenOff } = barsPlayed(grid, found, dueBars, phrase.bars.length);
  const laid = laidGrid(grids(bars), found.lattice, found);
  const lastMs = laid.grid.bars[bars - 1].endMs;
  return {
    found,
    ...laid,
    doubles: new Set(found.doubles?.strokes.map((index) => main[index])),
    untilMs: isBrokenOff ? lastMs - grid.smallestGapMs / 2 : found.untilMs + 1,
  };
}

/** In whole cycles, as far as due or played. */
function gridTo({ phrase, downbeatMs }: Timed, grids: Grids, lastMs: Ms): Grid {
  let bars = Math.max(phrase.cycles, 1) * phrase.bars.length;
  let grid = grids(bars);
  while (grid.bars[grid.bars.length - 1].endMs < lastMs && bars < MOST_BARS) {
    const reached = (lastMs - downbeatMs) / (grid.bars[grid.bars.length - 1].endMs - downbeatMs);
    bars = phrase.bars.length * Math.ceil((bars * Math.min(2, reached) + 1) / phrase.bars.length);
    grid = grids(bars);
  }
  return grid;
}

/** Past these nobody plays on. */
const MOST_BARS = 20_000;
/** Strokes that follow each other as the slots do. */
const IN_A_RUN = 1.5;
const BARS_AHEAD = 2;

/** The first stroke of the take: from the downbeat on, with those that run into it as the slots do, up to two bars. */
function firstOf(grid: Grid, strokes: readonly Stroke[], downbeatMs: Ms): number {
  const gapMs = grid.smallestGapMs;
  const earliestMs = downbeatMs - BARS_AHEAD * (grid.bars[0].endMs - grid.bars[0].startMs) - gapMs;
  let first = strokes.findIndex(({ atMs }) => atMs >= downbeatMs - gapMs / 2);
  if (first < 0) return strokes.length;
  while (
    first > 0 &&
    strokes[first - 1].atMs >= earliestMs &&
    strokes[first].atMs - strokes[first - 1].atMs <= IN_A_RUN * gapMs
  ) {
    first -= 1;
  }
  return first;
}

/** When the port was gone: until it was back, or to the end. */
function absencesOf({ events = [] }: Timed): readonly Absence[] {
  const absences: Absence[] = [];
  for (const event of events) {
    if (event.kind === 'port gone' || event.kind === 'midi withdrawn') {
      absences.push({ fromMs: event.atMs, toMs: Infinity });
    } else if (event.kind === 'port back' || event.kind === 'midi allowed') {
      const open = absences.findIndex(({ toMs }) => toMs === Infinity);
      if (open >= 0) absences[open] = { ...absences[open], toMs: event.atMs };
    }
  }
  return absences;
}

/**
 * Bars to grade: to the last that has a stroke. One broken off at the end isn't graded, as long as it isn't the last due:
 * to stop is no fault. Bars in which nothing is due end a cycle without a stroke.
 */
function barsPlayed(
  grid: Grid,
  { lattice, lastPlace, layings }: CourseFound,
  dueBars: number,
  perCycle: number,
): { readonly bars: number; readonly isBrokenOff: boolean } {
  const inCycle = lastPlace % lattice.perCycle;
  const last = perCycle * Math.floor(lastPlace / lattice.perCycle) + lattice.bar[inCycle];
  let place = inCycle + 1;
  while (place < lattice.perCycle && lattice.inBar[place] > 0 && lattice.slot[place] < 0) place += 1;
  const isWhole = place >= lattice.perCycle || lattice.inBar[place] === 0;
  const isOneShift = layings.every(({ shift }) => shift === layings[0].shift);
  const isDue = isOneShift && (last + 1 === dueBars || layings[0].shift > 0);
  if (!isWhole && !isDue && last > 0) return { bars: last, isBrokenOff: true };
  let bars = last + 1;
  while (bars % perCycle !== 0 && grid.bars[bars % perCycle].role !== 'play') bars += 1;
  return { bars, isBrokenOff: false };
}
