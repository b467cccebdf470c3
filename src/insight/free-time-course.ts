import type { Phrase, Tempo } from '../exercises/types';
import { barTempos } from './bar-tempos';
import { spansNought } from '../grading/numbers/difference';
import { meanEstimate, welchDifference, type Estimate } from '../grading/numbers/intervals';
import { fixed } from '../words/numbers';
import type { Report } from '../grading/types';
import type { Bpm } from '../units';

/** How a player kept the time without a click. */
interface FreeTimeCourse {
  /** Mean of the bars' tempos. */
  readonly bpm: Bpm;
  /** The last third of the bars less the first, bpm, with its 90 % interval; null of fewer than six bars. */
  readonly movedBpm: Estimate | null;
  readonly words: string;
}

const FEWEST_BARS = 6;
/** A change of tempo that nobody hears, as a share. Common practice, no source. */
const LEAST_SHARE = 0.01;

/** @returns undefined where there was a click, the take does not fit, or its tempo was meant to move (open–close–open) */
export function freeTimeCourse(report: Report, phrase: Phrase, tempo: Tempo): FreeTimeCourse | undefined {
  if (report.freeTime === undefined || !report.fits || 'ramp' in tempo) return undefined;
  const bpms = barTempos(report, phrase, tempo).flatMap(({ playedBpm }) => playedBpm ?? []);
  const bpm = meanEstimate(bpms)?.value ?? bpms.at(0);
  if (bpm === undefined) return undefined;
  const third = Math.floor(bpms.length / 3);
  const movedBpm =
    bpms.length < FEWEST_BARS ? null : (welchDifference(bpms.slice(-third), bpms.slice(0, third)) ?? null);
  return { bpm, movedBpm, words: wordsOf(bpm, movedBpm) };
}

function wordsOf(bpm: Bpm, moved: Estimate | null): string {
  const about = `${fixed(bpm, 1)} bpm on average`;
  if (moved === null) return `${about}; too few bars to tell whether the time moved.`;
  if (spansNought(moved) || Math.abs(moved.value) < LEAST_SHARE * bpm)
    return `${about}; from the first third to the last it stayed, inside the noise or under what is heard.`;
  const [low, high] = moved.interval.map(Math.abs).sort((a, b) => a - b);
  const way = moved.value > 0 ? 'faster' : 'slower';
  return `${about}; it got ${fixed(Math.abs(moved.value), 1)} bpm ${way} from the first third to the last (90 %: ${fixed(low, 1)} to ${fixed(high, 1)} bpm).`;
}
