import type { Estimate } from './intervals';

/**
 * A difference less what something else explains of it: towards 0, never past it, and never away from it. So an
 * explanation can clear a stroke, but cannot make a fault.
 * @param explained what the other thing accounts for, in the unit of the estimate
 * @param reach half the 90 % interval of that
 * @example unexplained({ value: 6, interval: [5, 7] }, 4) // => { value: 2, interval: [1, 3] }
 * @example unexplained({ value: 6, interval: [5, 7] }, -4) // => { value: 6, interval: [5, 7] }
 * @example unexplained({ value: 6, interval: [5, 7] }, 9) // => { value: 0, interval: [-1, 1] }
 */
export function unexplained(estimate: Estimate, explained: number, reach = 0): Estimate {
  const { value, interval } = estimate;
  if (explained * value <= 0) return estimate;
  const shift = Math.sign(value) * Math.min(Math.abs(explained), Math.abs(value));
  const low = value - interval[0];
  const high = interval[1] - value;
  return {
    value: value - shift,
    interval: [
      value - shift - Math.sqrt(low * low + reach * reach),
      value - shift + Math.sqrt(high * high + reach * reach),
    ],
  };
}
