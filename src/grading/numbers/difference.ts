import { square } from '../../exact';
import type { Estimate } from './intervals';

/**
 * a less b, of two independent takes, with an interval made from both of theirs: each end is moved by the root of the
 * squares of the two ways that lead to it, so that lopsided intervals stay lopsided.
 * Source: Zou & Donner 2008, the method of variance estimates recovery.
 * @example difference({ value: 5, interval: [4, 6] }, { value: 2, interval: [2, 2] }) // => { value: 3, interval: [2, 4] }
 */
export function difference(a: Estimate, b: Estimate): Estimate {
  const value = a.value - b.value;
  const down = Math.sqrt(square(a.value - a.interval[0]) + square(b.interval[1] - b.value));
  const up = Math.sqrt(square(a.interval[1] - a.value) + square(b.value - b.interval[0]));
  return { value, interval: [value - down, value + up] };
}

/** Whether an interval spans nought: then the difference is inside the noise. */
export function spansNought({ interval: [low, high] }: Estimate): boolean {
  return low <= 0 && high >= 0;
}
