import { barTempos } from '../../insight/bar-tempos';
import type { Report } from '../../grading/types';
import type { Take } from '../../sessions/types';
import { fixed } from '../shared/numbers';
import type { TempoPicture, TempoPoint } from './picture';

/**
 * The tempo of each bar, as planned and as played: the least-squares slope of the strokes over the beats of the bar.
 * For takes where the tempo is the point: on a ramp, or without a click all through. Null for others.
 */
export function tempoPicture(take: Take, report: Report): TempoPicture | null {
  if ('bpm' in take.tempo && take.click === 'on') return null;
  const points = barTempos(report, take.phrase, take.tempo).map(
    ({ bar, plannedBpm, playedBpm }): TempoPoint => ({ bar: bar + 1, plannedBpm, playedBpm }),
  );
  const played = points.flatMap(({ playedBpm }) => playedBpm ?? []);
  if (played.length < 2) return null;
  return {
    kind: 'tempo',
    name: 'tempo',
    title: title(played),
    of: 'whole take',
    drawn: `tempo of each bar, bpm; the thin line is ${report.freeTime === undefined ? 'what was asked' : 'the tempo around it'}`,
    points,
  };
}

function title(played: readonly number[]): string {
  const at = (index: number): string => fixed(played[index], 0);
  const fastest = played.indexOf(Math.max(...played));
  const last = played.length - 1;
  if (fastest === 0 || fastest === last) return `The tempo went from ${at(0)} to ${at(last)} bpm`;
  return `The tempo went from ${at(0)} to ${at(fastest)} bpm, and ended at ${at(last)}`;
}
