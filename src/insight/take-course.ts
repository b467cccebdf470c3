import { bareDriftOf } from './bare-drift';
import { enduranceOf } from './endurance';
import { freeTimeCourse } from './free-time-course';
import { openCloseOpen } from './open-close-open';
import type { Reviewed } from '../take/reviewed';

/** One thing to say of how a take went from its beginning to its end. */
export interface CourseLine {
  readonly of: 'endurance' | 'open–close–open' | 'bare bars' | 'free time';
  readonly words: string;
}

/** From a minute on a take at one tempo tells what tiring does. Our own choice, no source. */
const ENDURANCE_FROM_MS = 55_000;

/** What a take tells over its time: a long one of tiring, one up and down again of its tempos, one with bare bars, or no click at all, of the time. */
export function courseOf({ take, report }: Reviewed): readonly CourseLine[] {
  if (!report.fits) return [];
  const { phrase, tempo } = take;
  const lines: CourseLine[] = [];
  const there = openCloseOpen(report, phrase, tempo);
  if (there !== undefined) lines.push({ of: 'open–close–open', words: there.words });
  if ('bpm' in tempo && lengthMs(take) >= ENDURANCE_FROM_MS) {
    const endured = enduranceOf(report, phrase, tempo);
    if (endured !== undefined) lines.push({ of: 'endurance', words: endured.words });
  }
  const time = freeTimeCourse(report, phrase, tempo);
  if (time !== undefined) lines.push({ of: 'free time', words: time.words });
  const drift = bareDriftOf(report, take);
  if (drift !== undefined) lines.push({ of: 'bare bars', words: drift.words });
  return lines;
}

function lengthMs({ hits }: Reviewed['take']): number {
  const [first, last] = [hits.at(0), hits.at(-1)];
  return first === undefined || last === undefined ? 0 : last.atMs - first.atMs;
}
