import { withLateLast } from '../alignment/late-last';
import { alignFeet } from '../alignment/align-feet';
import { alignHands } from '../alignment/align-hands';
import type { Course } from '../alignment/course/types';
import { loudnessesOf } from '../alignment/course/velocities';
import type { Alignment } from '../alignment/types';
import { InputError } from '../errors';
import { gridOf } from '../exercises/grid';
import type { TimePlayed } from '../exercises/tempo';
import type { Foot, Grid } from '../exercises/types';
import type { FeetPlayed, Graded } from '../grading/graded';
import { reportOf } from '../grading/report';
import type { Report } from '../grading/types';
import { condition } from '../midi/conditioning';
import { refuseCrowd } from '../midi/crowded';
import { handsOf, surfaceFinder, thresholdDbOf } from '../midi/rig';
import type { Label } from '../midi/types';
import type { Rig, Take } from '../sessions/types';
import { settingsOf, type Settings } from '../settings';
import type { Stroke } from '../stroke';
import type { Ms } from '../units';
import { bothDueIn } from './both-due';
import { extentOf, type Extent } from './extent';
import { laidTake, rateOfTake, type LaidTake } from './laid-take';
import { graceStrokes } from './grace-strokes';
import { gridsOf, type Grids } from './grids-of';
import { ownTimeOf } from './own-time';
import { withMergedPairs } from './merged-pairs';
import { playedBars } from './played-bars';
import { rigDoubts } from './rig-doubts';
import { heightsOf, withSpotTrims } from './rig-heights';
import { apartOn, rigAsVoiced, trimmedNames, voicedIds } from './voiced-rig';

/**
 * A take graded whole: raw hits → strokes → slots → report. The page, the command line and the tests all call this.
 * The same take gives the same report, byte for byte.
 * @throws InputError for a take that cannot be graded: fewer than two strokes in its bars, in free time fewer than four, or
 *   more at once than hands can play
 */
export function gradeTake(take: Take): Report {
  return reportOf(gradedOf(take));
}

/** What a take's report is made of: its grid, its strokes, and which stroke answers which slot. @throws as {@link gradeTake} */
export function gradedOf(raw: Take): Graded {
  refuseCrowd(raw.hits);
  const freeTime = raw.downbeatMs === null ? ownTimeOf(raw) : undefined;
  const take: TimedTake = { ...raw, ...inTime(raw, freeTime) };
  const settings = settingsOf(take.limits, take.settings);
  const cycle = gridOf(take.phrase, take.tempo, take.downbeatMs, take.phrase.bars.length);
  const rig = rigAsVoiced(take.rig, take.phrase, cycle);
  const { labels, strokes } = condition(rig, settings, take.hits, bothDueOf(take, rig, settings, cycle));
  const { grid, played, feet, alignment } = alignTake({ ...take, rig }, strokes, settings);
  const heights = heightsOf(rig, grid);
  const barsToPlay = take.phrase.bars.filter(({ role = 'play' }) => role === 'play');
  const surfaceIds = voicedIds(rig, take.phrase);
  return {
    takeId: take.id,
    limits: take.limits,
    settings,
    hands: handsOf(rig),
    grid,
    strokes: withSpotTrims(rig, grid, played, alignment),
    alignment: withMergedPairs(rig, grid, alignment),
    conditioning: {
      forerunners: countOf(labels, 'forerunner') + countOf(labels, 'zone'),
      crosstalk: countOf(labels, 'crosstalk'),
      unmapped: countOf(labels, 'unmapped') - startStrikes(take.rig, rig, take.hits),
    },
    cycles: { due: take.phrase.cycles, played: grid.bars.length / grid.barsPerCycle },
    variationsDue: [...new Set(barsToPlay.map(({ variation }) => variation))],
    barsDue: take.phrase.cycles * barsToPlay.length,
    trimmed: trimmedNames(rig, grid),
    ...(surfaceIds === undefined ? {} : { surfaceIds }),
    ...(heights === undefined ? {} : { heights }),
    ...rigDoubts(rig, grid, take.hits),
    ...(feet === undefined ? {} : { feet }),
    ...(freeTime === undefined ? {} : { freeTime }),
  };
}

/** A take whose first bar begins at a known time. */
type TimedTake = Take & { readonly downbeatMs: Ms };

/** When its first bar began, and its tempo: the click's, or the player's own. */
function inTime({ downbeatMs, tempo }: Take, freeTime?: TimePlayed): Pick<TimedTake, 'downbeatMs' | 'tempo'> {
  return freeTime ?? { downbeatMs: downbeatMs ?? 0, tempo };
}

/** A take's strokes against the grid that was played. `played`: the hands' strokes from the downbeat to the grid's end. */
interface AlignedTake {
  readonly grid: Grid;
  readonly played: readonly Stroke[];
  readonly alignment: Alignment;
  /** Left out where the phrase has no feet. */
  readonly feet?: FeetPlayed;
}

/** Grid as it was played, and which stroke answers which slot in it. */
function alignTake(asked: TimedTake, strokes: readonly Stroke[], settings: Settings): AlignedTake {
  const footOf = new Map(asked.rig.surfaces.map(({ id, foot }) => [id, foot]));
  const ofHands = strokes.filter((stroke) => footOf.get(stroke.surface) === undefined);
  const gridsAsked = gridsOf(asked, settings);
  const asDue = once(() => alignedPlainly(asked, gridsAsked, ofHands, settings));
  const graces = graceStrokes(gridsAsked(asked.phrase.bars.length), ofHands, asDue, settings);
  const main = ofHands.filter((stroke) => !stroke.echoLike && !graces.has(stroke));
  const rate = rateOfTake(asked, gridsAsked, main, settings);
  const take = rate === undefined ? asked : { ...asked, tempo: atRate(asked.tempo, rate) };
  const grids = rate === undefined ? gridsAsked : gridsOf(take, settings);
  const laid = laidTake(take, grids, ofHands, graces, settings);
  const aligned =
    laid !== undefined
      ? alignedAsLaid(take, laid, ofHands, settings)
      : rate === undefined
        ? asDue()
        : alignedPlainly(take, grids, ofHands, settings);
  const { grid } = aligned;
  const { played, alignment } = withLateLast(grid, aligned, ofHands);
  const course = [
    ...loudnessCourse(played, settings),
    ...(rate === undefined ? [] : [{ kind: 'rate', rate } as const]),
    ...(laid?.found.course ?? []),
    ...alignment.otherBars.map((other): Course => ({ kind: 'other bar', ...other })),
  ];
  const isFalse = falseShare(alignment) > settings['course.falseMost'];
  const misfit = isFalse ? ({ reason: 'rig' } as const) : alignment.misfit;
  const paired = { grid, played, alignment: { ...alignment, course, misfit } };
  if (grid.feet.length === 0) return paired;
  const ofFeet = strokesOf(grid, settings, strokes, aligned.untilMs, alignment.offsetMs).flatMap((stroke) => {
    const foot = footOf.get(stroke.surface);
    return foot === undefined || stroke.echoLike ? [] : [{ ...stroke, foot }];
  });
  const known = new Set([...footOf.values()].filter((foot): foot is Foot => foot !== undefined));
  return {
    ...paired,
    feet: {
      strokes: ofFeet,
      alignment: alignFeet(grid.feet, ofFeet, alignment.offsetMs, settings['feet.limitGaps'], known),
    },
  };
}

/** Share of the hits that were echoes, or came twice. */
function falseShare({ outcomes, extras, echoes, doubles }: Alignment): number {
  const wrong = echoes.length + doubles.length;
  const right = outcomes.filter((one) => 'stroke' in one && one.stroke !== null).length + extras.length;
  return wrong / Math.max(1, wrong + right);
}

/** What is worked out when it is first asked for, and then known. */
function once<Of>(work: () => Of): () => Of {
  let known: { readonly of: Of } | undefined;
  return () => (known ??= { of: work() }).of;
}

const atRate = (tempo: TimedTake['tempo'], rate: number): TimedTake['tempo'] =>
  'bpm' in tempo ? { bpm: tempo.bpm * rate } : tempo;

function loudnessCourse(played: readonly Stroke[], settings: Settings): readonly Course[] {
  const loudnesses = loudnessesOf(
    played.map(({ levelDb }) => levelDb),
    settings,
  );
  if (loudnesses === 'many') return [];
  return [{ kind: loudnesses === 'one' ? 'one loudness' : 'few loudnesses' }];
}

interface Aligned {
  readonly grid: Grid;
  readonly played: readonly Stroke[];
  readonly alignment: Alignment;
  readonly untilMs: Ms;
}

/** Under the grid that was laid; strokes that came twice answer nothing and are no extras. */
function alignedAsLaid(
  take: TimedTake,
  laid: LaidTake,
  ofHands: readonly Stroke[],
  settings: Settings,
): Aligned {
  const { grid, notPlayed, doubles, untilMs } = laid;
  const played = strokesOf(grid, settings, ofHands, untilMs, 0);
  const kept = played.flatMap((stroke, index) => (doubles.has(stroke) ? [] : [index]));
  if (kept.length < 2) {
    throw new InputError('hits', `must have at least 2 strokes from the downbeat on, got ${kept.length}`);
  }
  const alignment = alignHands(
    grid,
    kept.map((index) => played[index]),
    settings,
    { thresholdDb: thresholdDbOf(take.rig, settings), apart: apartOn(take.rig), notPlayed },
  );
  return {
    grid,
    played,
    untilMs,
    alignment: {
      ...alignment,
      outcomes: alignment.outcomes.map((outcome) =>
        'stroke' in outcome && outcome.stroke !== null
          ? { ...outcome, stroke: kept[outcome.stroke] }
          : outcome,
      ),
      extras: alignment.extras.map((extra) => ({ ...extra, stroke: kept[extra.stroke] })),
      echoes: alignment.echoes.map((stroke) => kept[stroke]),
      doubles: played.flatMap((stroke, index) => (doubles.has(stroke) ? [index] : [])),
      ...(alignment.graces === undefined
        ? {}
        : {
            graces: alignment.graces.map(({ slot, strokes }) => ({
              slot,
              strokes: strokes.map((stroke) => kept[stroke]),
            })),
          }),
    },
  };
}

/** Rounds in which grid and offset may settle: the last bar played depends on the offset, and the other way round. */
const MOST_ROUNDS = 4;

/** Under the grid as it was due, as far as the take was played. */
function alignedPlainly(
  take: TimedTake,
  grids: Grids,
  ofHands: readonly Stroke[],
  settings: Settings,
): Aligned {
  const { phrase, tempo, downbeatMs } = take;
  const gapMs = gridOf(phrase, tempo, downbeatMs, phrase.bars.length).smallestGapMs;
  const timesMs = ofHands.filter((stroke) => !stroke.echoLike).map((stroke) => stroke.atMs);
  const extentAt = (offsetMs: number): Extent =>
    extentOf(phrase, tempo, downbeatMs, timesMs, gapMs / 2 - offsetMs);

  let extent = extentAt(0);
  let offsetMs: Ms = 0;
  for (let round = 1; ; round += 1) {
    const grid = grids(Math.max(1, extent.bars));
    const played = strokesOf(grid, settings, ofHands, extent.untilMs, offsetMs);
    if (played.length < 2) {
      throw new InputError('hits', `must have at least 2 strokes from the downbeat on, got ${played.length}`);
    }
    const alignment = alignHands(grid, played, settings, {
      thresholdDb: thresholdDbOf(take.rig, settings),
      apart: apartOn(take.rig),
    });
    const settled = extentAt(alignment.offsetMs);
    if (settled.bars === extent.bars || round === MOST_ROUNDS) {
      return { grid, played, alignment, untilMs: extent.untilMs };
    }
    extent = settled;
    ({ offsetMs } = alignment);
  }
}

/**
 * Strokes near enough to the grid to answer a slot of it; the ones before and after are no part of the take, nor are
 * those in bars to listen to or to count aloud.
 */
function strokesOf(
  grid: Grid,
  settings: Settings,
  strokes: readonly Stroke[],
  untilMs: Ms,
  offsetMs: Ms,
): readonly Stroke[] {
  const leadMs = grid.slots[0].graces.length * settings['grace.mostMs'];
  const fromMs = grid.bars[0].startMs - Math.max(grid.smallestGapMs, leadMs);
  const toMs = Math.min(untilMs, grid.bars[grid.bars.length - 1].endMs + grid.smallestGapMs);
  const inGrid = strokes.filter((stroke) => stroke.atMs >= fromMs && stroke.atMs < toMs);
  const isPlayed = playedBars(grid, settings);
  return inGrid.filter(({ atMs }) => isPlayed(atMs - offsetMs));
}

/** What conditioning must know of the phrase: nothing, where it has neither unisons nor feet. */
function bothDueOf(
  { phrase, tempo, downbeatMs, hits }: TimedTake,
  rig: Rig,
  settings: Settings,
  cycle: Grid,
): Parameters<typeof condition>[3] {
  const apart = apartOn(rig);
  if (bothDueIn(cycle, rig, settings, apart) === undefined) return {};
  const lastMs = hits[hits.length - 1].atMs;
  let bars = Math.max(phrase.cycles, 1) * phrase.bars.length;
  let grid = gridOf(phrase, tempo, downbeatMs, bars);
  while (grid.bars[grid.bars.length - 1].endMs < lastMs && bars < MOST_BARS) {
    bars *= 2;
    grid = gridOf(phrase, tempo, downbeatMs, bars);
  }
  const bothDue = bothDueIn(grid, rig, settings, apart);
  return bothDue === undefined ? {} : { bothDue };
}

/** Past these nobody plays on. */
const MOST_BARS = 20_000;

/** Strikes on a surface that only starts and stops: no strokes, and no notes that nobody owns either. */
function startStrikes(whole: Rig, rig: Rig, hits: Take['hits']): number {
  if (whole.surfaces.length === rig.surfaces.length) return 0;
  const [ownerOf, playedOn] = [surfaceFinder(whole), surfaceFinder(rig)];
  return hits.filter((hit) => ownerOf(hit) !== undefined && playedOn(hit) === undefined).length;
}

function countOf(labels: readonly Label[], label: Label): number {
  return labels.reduce((sum, one) => sum + Number(one === label), 0);
}
