import { gridOf } from '../../exercises/grid';
import type { Slot } from '../../exercises/types';
import type { Report } from '../../grading/types';
import type { Take } from '../../sessions/types';
import { fixed } from '../numbers';
import type { TempoPicture, TempoPoint } from './picture';

const MS_A_MINUTE = 60_000;
/** Fewer strokes of a bar don't tell its tempo. Common practice. */
const FEWEST = 4;

/**
 * The tempo of each bar, as planned and as played: the least-squares slope of the strokes over the beats of the bar.
 * For takes where the tempo is the point: on a ramp, or without a click all through. Null for others.
 */
export function tempoPicture(take: Take, report: Report): TempoPicture | null {
  if ('bpm' in take.tempo && take.click === 'on') return null;
  const grid = gridOf(take.phrase, take.tempo, 0, report.bars.length);
  const points = grid.bars.map((bar): TempoPoint => {
    const slots = grid.slots.slice(bar.firstSlot, bar.firstSlot + bar.slots);
    const plannedBpm = (MS_A_MINUTE * bar.beats) / (bar.endMs - bar.startMs);
    const offMs = slots.map(({ index }) => report.slots[index]?.deviationMs ?? null);
    const slope = slopeOf(slots, offMs);
    return { bar: bar.index + 1, plannedBpm, playedBpm: slope === null ? null : plannedBpm / (1 + slope) };
  });
  const played = points.flatMap(({ playedBpm }) => playedBpm ?? []);
  if (played.length < 2) return null;
  return {
    kind: 'tempo',
    name: 'tempo',
    title: title(played),
    of: 'whole take',
    drawn: 'tempo of each bar, bpm; the thin line is what was asked',
    points,
  };
}

/** How much longer than planned the bar was played: deviation over time, least squares. */
function slopeOf(slots: readonly Slot[], offMs: readonly (number | null)[]): number | null {
  const pairs = slots.flatMap((slot, index) => {
    const off = offMs[index];
    return off === null ? [] : [{ x: slot.atMs, y: off }];
  });
  if (pairs.length < FEWEST) return null;
  const mean = (of: (pair: { x: number; y: number }) => number): number =>
    pairs.reduce((sum, pair) => sum + of(pair), 0) / pairs.length;
  const [x, y] = [mean((pair) => pair.x), mean((pair) => pair.y)];
  const spread = pairs.reduce((sum, pair) => sum + (pair.x - x) * (pair.x - x), 0);
  return spread === 0 ? null : pairs.reduce((sum, pair) => sum + (pair.x - x) * (pair.y - y), 0) / spread;
}

function title(played: readonly number[]): string {
  const at = (index: number): string => fixed(played[index], 0);
  const fastest = played.indexOf(Math.max(...played));
  const last = played.length - 1;
  if (fastest === 0 || fastest === last) return `The tempo went from ${at(0)} to ${at(last)} bpm`;
  return `The tempo went from ${at(0)} to ${at(fastest)} bpm, and ended at ${at(last)}`;
}
