import { columnOf } from '../../column';
import { cos } from '../../exact';
import type { Settings } from '../../settings';
import type { Ms } from '../../units';
import { medianInPlace } from '../../ordered';
import { rates, type Rate } from './types';

/**
 * **Another rate**: how much faster than due the strokes follow each other, by the medians over two in a row, where
 * that is near twice, half, three to two or two to three, and their distances are whole steps of that rate: where strokes
 * were left out they are steps of the phrase's own.
 * @param dueMs times of the slots, without unisons' second; @param playedMs of the strokes, without graces, in order
 * @returns undefined where it is none of these, and of fewer than eight strokes or slots
 */
export function rateOf(dueMs: ArrayLike<Ms>, playedMs: ArrayLike<Ms>, settings: Settings): Rate | undefined {
  const [due, played] = [overTwo(dueMs), overTwo(playedMs)];
  if (due === undefined || played === undefined) return undefined;
  const rate = rates.find((one) => Math.abs(due / played / one - 1) <= settings['course.rateReach']);
  if (rate === undefined) return undefined;
  return inSteps(playedMs, due / (2 * rate)) >= settings['course.rateSteps'] ? rate : undefined;
}

const FEWEST = 8;

function overTwo(times: ArrayLike<Ms>): Ms | undefined {
  if (times.length < FEWEST) return undefined;
  return medianInPlace(columnOf(times.length - 2, (i) => times[i + 2] - times[i]));
}

/** Mean cosine of the distances between neighbours, in turns of a step: 1 where all are whole steps, near 0 anywhere. */
function inSteps(times: ArrayLike<Ms>, stepMs: Ms): number {
  let sum = 0;
  for (let i = 1; i < times.length; i += 1) sum += cos((2 * Math.PI * (times[i] - times[i - 1])) / stepMs);
  return sum / (times.length - 1);
}
