import type { Settings } from '../../settings';
import type { Ms } from '../../units';
import { medianInPlace } from '../../ordered';
import { rates, type Rate } from './types';

/**
 * **Another rate**: how much faster than due the strokes follow each other, by the medians over two in a row, where
 * that is near twice, half, three to two or two to three.
 * @param dueMs times of the slots, without unisons' second; @param playedMs of the strokes, without graces, in order
 * @returns undefined where it is none of these, and of fewer than eight strokes or slots
 */
export function rateOf(dueMs: ArrayLike<Ms>, playedMs: ArrayLike<Ms>, settings: Settings): Rate | undefined {
  const [due, played] = [overTwo(dueMs), overTwo(playedMs)];
  if (due === undefined || played === undefined) return undefined;
  return rates.find((rate) => Math.abs(due / played / rate - 1) <= settings['course.rateReach']);
}

const FEWEST = 8;

function overTwo(times: ArrayLike<Ms>): Ms | undefined {
  if (times.length < FEWEST) return undefined;
  return medianInPlace(Float64Array.from({ length: times.length - 2 }, (_, i) => times[i + 2] - times[i]));
}
