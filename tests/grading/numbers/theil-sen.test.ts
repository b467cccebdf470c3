import { describe, expect, it } from 'vitest';
import { theilSen } from '../../../src/grading/numbers/theil-sen';
import { reference } from '../../reference/read';

interface Case {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly level: number;
  readonly slope: number;
  readonly intercept: number;
  readonly low: number;
  readonly high: number;
}
const { cases } = reference('theil_sen') as { readonly cases: readonly Case[] };

describe('a robust line', () => {
  it.each(cases)(
    'has the slope and the interval of scipy’s theilslopes: $slope',
    ({ x, y, level, ...line }) => {
      const found = theilSen(x, y, level);
      expect(found?.slope).toBeCloseTo(line.slope, 12);
      expect(found?.intercept).toBeCloseTo(line.intercept, 10);
      expect(found?.interval[0]).toBeCloseTo(line.low, 12);
      expect(found?.interval[1]).toBeCloseTo(line.high, 12);
    },
  );

  it('is not bent by one wild day: tempo up 1 bpm a day, one day at 40', () => {
    const days = [0, 1, 2, 3, 4, 5, 6, 7, 8];
    const tempos = days.map((day) => (day === 4 ? 40 : 80 + day));
    expect(theilSen(days, tempos)?.slope).toBe(1);
  });

  it('says nothing of two points, of one day, or of values that are all alike', () => {
    expect(theilSen([1, 2], [3, 4])).toBeUndefined();
    expect(theilSen([2, 2, 2], [1, 2, 3])).toBeUndefined();
    expect(theilSen([1, 2, 3], [5, 5, 5])).toBeUndefined();
  });
});
