import { ln } from '../exact';
import type { Course } from '../alignment/course/types';
import type { Graded } from './graded';
import { mean } from '../ordered';
import { welchDifference } from './numbers/intervals';

const MINUTE_MS = 60_000;
const PERCENT = 100;

/**
 * **Drift in free time**: the tempo of the last quarter of the bars against the first quarter's, told from 2 % on where the
 * 90 % interval (Welch's, of bars' log tempi) leaves nought out. Under two bars a quarter nothing is said.
 * Source: common practice, no source.
 * @returns one finding, or none where there was a click
 */
export function freeDrift({ freeTime, grid, settings }: Graded): readonly Course[] {
  if (freeTime === undefined) return [];
  const tempi = grid.bars.map(({ beats, startMs, endMs }) => (MINUTE_MS * beats) / (endMs - startMs));
  const quarter = Math.floor(tempi.length / 4);
  const [first, last] = [tempi.slice(0, quarter), tempi.slice(tempi.length - quarter)];
  const change = welchDifference(
    last.map((bpm) => PERCENT * ln(bpm)),
    first.map((bpm) => PERCENT * ln(bpm)),
  );
  const [from, to] = [mean(first), mean(last)];
  if (change === undefined || from === undefined || to === undefined) return [];
  const [low, high] = change.interval;
  const isFound = Math.abs(change.value) > settings['drift.freePercent'] && (low > 0 || high < 0);
  return isFound ? [{ kind: 'drift', from, to }] : [];
}
