import { align } from '../alignment/align';
import { alignGraced } from '../alignment/graces';
import type { Alignment } from '../alignment/types';
import { InputError } from '../errors';
import { gridOf } from '../exercises/grid';
import type { Grid } from '../exercises/types';
import { reportOf } from '../grading/report';
import type { Report } from '../grading/types';
import { condition } from '../midi/conditioning';
import { handsOf, thresholdDbOf } from '../midi/rig';
import type { Label } from '../midi/types';
import type { Take } from '../sessions/types';
import { settingsOf, type Settings } from '../settings';
import type { Stroke } from '../stroke';
import { extentOf, type Extent } from './extent';

/**
 * A take graded whole: raw hits → strokes → slots → report. The page, the command line and the tests all call this.
 * The same take gives the same report, byte for byte.
 * @throws InputError for a take that cannot be graded: no downbeat (free time), fewer than two strokes in its bars, or
 *   a phrase with what is not graded yet
 */
export function gradeTake(take: Take): Report {
  const settings = settingsOf(take.limits, take.settings);
  const { labels, strokes } = condition(take.rig, settings, take.hits);
  const { grid, played, alignment } = alignTake(take, strokes, settings);
  return reportOf({
    takeId: take.id,
    limits: take.limits,
    settings,
    hands: handsOf(take.rig),
    grid,
    strokes: played,
    alignment,
    conditioning: {
      forerunners: countOf(labels, 'forerunner') + countOf(labels, 'zone'),
      crosstalk: countOf(labels, 'crosstalk'),
      unmapped: countOf(labels, 'unmapped'),
    },
    cycles: { due: take.phrase.cycles, played: grid.bars.length / grid.barsPerCycle },
  });
}

/** A take's strokes against the grid that was played. `played`: the strokes from the downbeat to the grid's end. */
export interface AlignedTake {
  readonly grid: Grid;
  readonly played: readonly Stroke[];
  readonly alignment: Alignment;
}

/** Rounds in which grid and offset may settle: the last bar played depends on the offset, and the other way round. */
const MOST_ROUNDS = 4;

/** Grid as far as the take was played, and which stroke answers which slot in it. */
export function alignTake(take: Take, strokes: readonly Stroke[], settings: Settings): AlignedTake {
  const { phrase, tempo, downbeatMs } = take;
  if (downbeatMs === null) {
    throw new InputError(
      'downbeatMs',
      'must be a time: takes in free time are kept but not graded yet',
      null,
    );
  }
  const gapMs = gridOf(phrase, tempo, downbeatMs, phrase.bars.length).smallestGapMs;
  const timesMs = strokes.filter((stroke) => !stroke.echoLike).map((stroke) => stroke.atMs);
  const extentAt = (offsetMs: number): Extent =>
    extentOf(phrase, tempo, downbeatMs, timesMs, gapMs / 2 - offsetMs);

  const alignTo = phrase.bars.some((bar) => bar.sticking.includes('{')) ? alignGraced : align;
  let extent = extentAt(0);
  for (let round = 1; ; round += 1) {
    const grid = gridOf(phrase, tempo, downbeatMs, Math.max(1, extent.bars));
    const played = strokesOf(grid, strokes, extent.untilMs);
    if (played.length < 2) {
      throw new InputError('hits', `must have at least 2 strokes from the downbeat on, got ${played.length}`);
    }
    const alignment = alignTo(grid, played, settings, { thresholdDb: thresholdDbOf(take.rig, settings) });
    const settled = extentAt(alignment.offsetMs);
    if (settled.bars === extent.bars || round === MOST_ROUNDS) return { grid, played, alignment };
    extent = settled;
  }
}

/** Strokes near enough to the grid to answer a slot of it; the ones before and after are no part of the take. */
function strokesOf(grid: Grid, strokes: readonly Stroke[], untilMs: number): readonly Stroke[] {
  const fromMs = grid.bars[0].startMs - grid.smallestGapMs;
  const toMs = Math.min(untilMs, grid.bars[grid.bars.length - 1].endMs + grid.smallestGapMs);
  return strokes.filter((stroke) => stroke.atMs >= fromMs && stroke.atMs < toMs);
}

function countOf(labels: readonly Label[], label: Label): number {
  return labels.reduce((sum, one) => sum + Number(one === label), 0);
}
