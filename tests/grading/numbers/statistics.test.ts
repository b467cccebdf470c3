import fc from 'fast-check';
import * as simple from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  betaQuantile,
  distributionOf,
  lag1,
  madSpread,
  median,
  merged,
  normalQuantile,
  sampleSd,
  studentQuantile,
} from '../../../src/grading/numbers/statistics';
import { mean } from '../../../src/ordered';
import { binomialTail } from '../../../src/grading/numbers/quantiles';
import { levelDb } from '../../../src/units';
import { reference } from '../../reference/read';

interface FromR {
  readonly t: readonly [p: number, df: number, quantile: number][];
  readonly normal: readonly [p: number, quantile: number][];
  readonly beta: readonly [p: number, a: number, b: number, quantile: number][];
  readonly tail: readonly [n: number, p: number, k: number, chance: number][];
  readonly mad: readonly { velocities: number[]; median: number; mad: number }[];
  readonly lag1: {
    readonly values: number[];
    readonly r: number;
    readonly sd: number;
    readonly mean: number;
  };
}
/** tests/reference/intervals.R */
const fromR = reference('intervals') as FromR;

/** Student's sleep data, extra hours under the first drug. */
const sleep = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];

const far = (offset: number): number[] => {
  const values = [offset + 0.2];
  for (let i = 0; i < 500; i++) values.push(offset + 0.1, offset + 0.3);
  return values;
};

describe('counted values', () => {
  it('come ascending, each once, with how often', () => {
    expect(distributionOf([-20, -6, -20, -19])).toEqual({ values: [-20, -19, -6], counts: [2, 1, 1], n: 4 });
  });

  it('of nothing are none', () => {
    expect(distributionOf([])).toEqual({ values: [], counts: [], n: 0 });
    expect(merged([])).toEqual({ values: [], counts: [], n: 0 });
  });

  it('refuse what is not a number, and say where', () => {
    expect(() => distributionOf([1, NaN])).toThrow('values[1] must be a finite number');
  });

  it('merged are the values counted together (law)', () => {
    const groups = fc.array(fc.array(fc.integer({ min: 1, max: 127 })));
    fc.assert(
      fc.property(groups, (lists) => {
        expect(merged(lists.map((list) => distributionOf(list)))).toEqual(distributionOf(lists.flat()));
      }),
    );
  });
});

describe('median and spread', () => {
  it('of an even count take the mean of the middle two', () => {
    expect(median(distributionOf([8, 1, 4, 2]))).toBe(3);
  });

  it('of nothing are undefined', () => {
    expect(median(distributionOf([]))).toBeUndefined();
    expect(madSpread(distributionOf([]))).toBeUndefined();
  });

  it('of levels are those of R (median, mad with its constant 1.4826)', () => {
    for (const { velocities, median: middle, mad } of fromR.mad) {
      const levels = distributionOf([velocities].flat().map((velocity) => levelDb(velocity)));
      expect(median(levels)).toBeCloseTo(middle, 12);
      expect(madSpread(levels)).toBeCloseTo(mad, 12);
    }
  });

  it('are those of simple-statistics (law)', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 127 }), { minLength: 1 }), (values) => {
        const counted = distributionOf(values);
        expect(median(counted)).toBe(simple.median(values));
        expect(madSpread(counted)).toBeCloseTo(1.4826 * simple.medianAbsoluteDeviation(values), 10);
      }),
    );
  });
});

describe('mean, sd and lag-1 autocorrelation', () => {
  it('of NIST NumAcc1 are 10000002, 1 and -0.5 exactly (NIST StRD, certified)', () => {
    const numAcc1 = [10000001, 10000003, 10000002];
    expect(mean(numAcc1)).toBe(10000002);
    expect(sampleSd(numAcc1)).toBe(1);
    expect(lag1(numAcc1)).toBe(-0.5);
  });

  it('of NIST NumAcc2, 3 and 4 keep their digits (NIST StRD, certified: sd 0.1, lag-1 -0.999)', () => {
    for (const [offset, digits] of [
      [1, 13],
      [1_000_000, 9],
      [10_000_000, 8],
    ]) {
      const values = far(offset);
      expect(values).toHaveLength(1001);
      expect(mean(values)).toBeCloseTo(offset + 0.2, 8);
      expect(sampleSd(values)).toBeCloseTo(0.1, digits);
      expect(lag1(values)).toBeCloseTo(-0.999, digits - 1);
    }
  });

  it("of Student's sleep data have sd 1.7890096577591623 (R, scipy)", () => {
    expect(mean(sleep)).toBeCloseTo(0.75, 14);
    expect(sampleSd(sleep)).toBeCloseTo(1.7890096577591623, 14);
  });

  it("of R's series nhtemp are R's (mean, sd, acf)", () => {
    const { values, r, sd, mean: middle } = fromR.lag1;
    expect(mean(values)).toBeCloseTo(middle, 12);
    expect(sampleSd(values)).toBeCloseTo(sd, 12);
    expect(lag1(values)).toBeCloseTo(r, 12);
  });

  it('of intervals that swing to and fro is -0.654472 (numpy)', () => {
    expect(lag1([500, 510, 495, 505, 490, 508, 497, 503, 488, 504])).toBeCloseTo(-0.654472, 6);
  });

  it('have no answer where there is none', () => {
    expect(mean([])).toBeUndefined();
    expect(sampleSd([5])).toBeUndefined();
    expect(lag1([5])).toBeUndefined();
    expect(lag1([5, 5, 5])).toBeUndefined();
  });

  it('read typed arrays as well', () => {
    expect(mean(Float64Array.of(1, 2, 6))).toBe(3);
  });
});

describe('quantiles', () => {
  it("of Student's t are R's (qt), whole and broken degrees of freedom", () => {
    expect(fromR.t).toHaveLength(32);
    for (const [p, df, quantile] of fromR.t) {
      expect(studentQuantile(p, df) / quantile).toBeCloseTo(1, 10);
      expect(studentQuantile(1 - p, df) / quantile).toBeCloseTo(-1, 10);
    }
  });

  it("of the normal distribution are R's (qnorm)", () => {
    for (const [p, quantile] of fromR.normal) expect(normalQuantile(p)).toBeCloseTo(quantile, 12);
    expect(normalQuantile(0.5)).toBe(0);
  });

  it("of the beta distribution are R's (qbeta)", () => {
    for (const [p, a, b, quantile] of fromR.beta) {
      expect(betaQuantile(p, a, b) / quantile).toBeCloseTo(1, 11);
    }
  });

  it("of k or more among n are R's tails (pbinom)", () => {
    for (const [n, p, k, chance] of fromR.tail) expect(binomialTail(n, p, k) / chance).toBeCloseTo(1, 9);
    expect(binomialTail(10, 0.3, 0)).toBe(1);
    expect(binomialTail(10, 0.3, 11)).toBe(0);
  });
});
