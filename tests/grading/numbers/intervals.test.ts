import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clarityEstimate,
  meanEstimate,
  medianDifference,
  medianEstimate,
  pooledSd,
  proportionEstimate,
  spreadEstimate,
  welchDifference,
  type Estimate,
} from '../../../src/grading/numbers/intervals';
import { resampledMedian } from '../../../src/grading/numbers/bootstrap-median';
import { distributionOf } from '../../../src/grading/numbers/statistics';
import { reference } from '../../reference/read';
import { seeded } from '../seeded';

type Ends = readonly [number, number];
interface FromR {
  readonly mean: { readonly values: number[]; readonly interval: Ends };
  readonly welch: readonly { readonly a: number[]; readonly b: number[]; readonly interval: Ends }[];
  readonly proportion: readonly [k: number, n: number, low: number, high: number][];
  readonly delong: readonly {
    readonly accents: number[];
    readonly softs: number[];
    readonly auc: number;
    readonly interval: Ends;
  }[];
  readonly pooled: { readonly groups: number[][]; readonly sd: number };
}
interface Enumerated {
  readonly exact: readonly { values: number[]; chances: [number, number][]; interval: Ends }[];
  readonly difference: readonly { readonly a: number[]; readonly b: number[]; readonly interval: Ends }[];
  readonly spread: readonly { readonly values: number[]; readonly interval: Ends }[];
  readonly drawn: readonly { readonly values: number[]; readonly shares: [number, number][] }[];
}
/** tests/reference/intervals.R and tests/reference/bootstrap_median.py */
const fromR = reference('intervals') as FromR;
const enumerated = reference('bootstrap_median') as Enumerated;

function expectInterval(estimate: Estimate | undefined, [low, high]: Ends, digits = 10): void {
  expect(estimate?.interval[0]).toBeCloseTo(low, digits);
  expect(estimate?.interval[1]).toBeCloseTo(high, digits);
}

describe('median', () => {
  it('has the chances that come from writing down all nⁿ resamples', () => {
    for (const { values, chances } of enumerated.exact) {
      const { values: medians, chances: ours } = resampledMedian(distributionOf(values));
      for (const [value, chance] of chances) {
        const same = [...ours].filter((_, i) => medians[i] === value);
        expect(same.reduce((sum, part) => sum + part, 0)).toBeCloseTo(chance, 12);
      }
      expect(ours.reduce((sum, part) => sum + part, 0)).toBeCloseTo(1, 12);
    }
  });

  it('has the interval that comes from writing down all nⁿ resamples', () => {
    expect(enumerated.exact).toHaveLength(5);
    for (const { values, interval } of enumerated.exact) {
      expect(medianEstimate(distributionOf(values))?.interval).toEqual(interval);
    }
  });

  it('agrees with half a million resamples drawn by numpy within 0.3 %, even and odd', () => {
    for (const { values, shares } of enumerated.drawn) {
      const { values: medians, chances } = resampledMedian(distributionOf(values));
      for (const [value, share] of shares) {
        const upTo = chances.reduce((sum, chance, i) => sum + (medians[i] <= value ? chance : 0), 0);
        expect(Math.abs(upTo - share)).toBeLessThan(0.003);
      }
    }
  });

  it('of 100 ones and 100 twos is 1.5 with chance C(200, 100)/2²⁰⁰ = 0.056348 (scipy)', () => {
    const { values, chances } = resampledMedian({ values: [1, 2], counts: [100, 100], n: 200 });
    expect([...values]).toEqual([1, 1.5, 2]);
    expect(chances[1]).toBeCloseTo(0.056348479009256436, 12);
    expect(chances[0]).toBeCloseTo(0.4718257604953718, 12);
  });

  it('over 200 strokes is the value of rank (n + 1)/2 rounded up: P(Bin(202, 1/2) >= 102) = 0.471965 (scipy)', () => {
    const { values, chances } = resampledMedian({ values: [1, 2], counts: [101, 101], n: 202 });
    expect([...values]).toEqual([1, 2]);
    expect(chances[0]).toBeCloseTo(0.4719652369285634, 10);
  });

  it('of one value, and of equal ones, is sure of it', () => {
    expect(medianEstimate(distributionOf([-20]))).toEqual({ value: -20, interval: [-20, -20] });
    expect(medianEstimate(distributionOf([7, 7, 7, 7]))).toEqual({ value: 7, interval: [7, 7] });
    expect(medianEstimate(distributionOf([]))).toBeUndefined();
  });

  it('moves with its values, ends and all (law)', () => {
    const whole = fc.array(fc.integer({ min: -60, max: 0 }), { minLength: 1, maxLength: 260 });
    fc.assert(
      fc.property(whole, fc.integer({ min: -20, max: 20 }), (values, shift) => {
        const { value, interval } = medianEstimate(distributionOf(values))!;
        expect(medianEstimate(distributionOf(values.map((v) => v + shift)))).toEqual({
          value: value + shift,
          interval: interval.map((end) => end + shift),
        });
        expect(interval[0]).toBeLessThanOrEqual(value);
        expect(interval[1]).toBeGreaterThanOrEqual(value);
      }),
    );
  });
});

describe('difference of medians', () => {
  it('has the interval of the two lists of all resamples, each with each', () => {
    for (const { a, b, interval } of enumerated.difference) {
      expect(medianDifference(distributionOf(a), distributionOf(b))?.interval).toEqual(interval);
    }
  });

  it('is positive where the first is higher: accents at -6 over softs at -20 are 14 dB', () => {
    const estimate = medianDifference(distributionOf([-7, -6, -5]), distributionOf([-20, -20, -20]));
    expect(estimate).toEqual({ value: 14, interval: [13, 15] });
  });

  it('is the sorted convolution (law)', () => {
    const whole = fc.array(fc.integer({ min: -30, max: 0 }), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(whole, whole, (a, b) => {
        const [of, less] = [resampledMedian(distributionOf(a)), resampledMedian(distributionOf(b))];
        const pairs = [...of.values].flatMap((x, i) =>
          [...less.values].map((y, j) => [x - y, of.chances[i] * less.chances[j]]),
        );
        pairs.sort((p, q) => p[0] - q[0]);
        let sum = 0;
        const low = pairs.find(([, chance]) => (sum += chance) >= 0.05)![0];
        expect(medianDifference(distributionOf(a), distributionOf(b))!.interval[0]).toBeCloseTo(low, 9);
      }),
    );
  });

  it('without strokes on one side is undefined', () => {
    expect(medianDifference(distributionOf([1]), distributionOf([]))).toBeUndefined();
  });
});

describe('spread', () => {
  it('of 2, 4, 8, 16, 30 is 1.4826 times 6, with the interval of all resamples of the deviations', () => {
    expect(spreadEstimate(distributionOf([2, 4, 8, 16, 30]))?.value).toBeCloseTo(1.4826 * 6, 12);
    for (const { values, interval } of enumerated.spread) {
      expectInterval(spreadEstimate(distributionOf(values)), interval);
    }
  });

  it('of nothing is undefined', () => {
    expect(spreadEstimate(distributionOf([]))).toBeUndefined();
  });
});

describe('clarity', () => {
  it("of Student's sleep data, ties half, is 0.745 (scipy: U 74.5 of 100)", () => {
    const { accents, softs } = fromR.delong[0];
    expect(clarityEstimate(distributionOf(accents), distributionOf(softs))?.value).toBeCloseTo(0.745, 12);
  });

  it("of the ages in scipy's manual is 0.85 (U 17 of 20)", () => {
    const [males, females] = [
      [19, 22, 16, 29, 24],
      [20, 11, 17, 12],
    ];
    expect(clarityEstimate(distributionOf(males), distributionOf(females))?.value).toBe(0.85);
  });

  it("has DeLong's interval as R's pROC gives it", () => {
    expect(fromR.delong).toHaveLength(4);
    for (const { accents, softs, auc, interval } of fromR.delong) {
      const estimate = clarityEstimate(distributionOf(accents), distributionOf(softs));
      expect(estimate?.value).toBeCloseTo(auc, 12);
      expectInterval(estimate, interval);
    }
  });

  it('turns round with its groups (law)', () => {
    const velocities = fc.array(fc.integer({ min: 1, max: 127 }), { minLength: 2, maxLength: 60 });
    fc.assert(
      fc.property(velocities, velocities, (a, b) => {
        const forth = clarityEstimate(distributionOf(a), distributionOf(b))!;
        const back = clarityEstimate(distributionOf(b), distributionOf(a))!;
        expect(back.value).toBeCloseTo(1 - forth.value, 12);
        expectInterval(back, [1 - forth.interval[1], 1 - forth.interval[0]]);
      }),
    );
  });

  it('needs two of each', () => {
    expect(clarityEstimate(distributionOf([100]), distributionOf([40, 41]))).toBeUndefined();
  });
});

describe('means', () => {
  it("have R's t interval (t.test)", () => {
    expectInterval(meanEstimate(fromR.mean.values), fromR.mean.interval);
  });

  it("differ by R's Welch interval (t.test)", () => {
    expect(fromR.welch).toHaveLength(2);
    for (const { a, b, interval } of fromR.welch) expectInterval(welchDifference(a, b), interval);
  });

  it('of equal values have no width, of one value no interval', () => {
    expect(meanEstimate([3, 3, 3])).toEqual({ value: 3, interval: [3, 3] });
    expect(meanEstimate([3])).toBeUndefined();
    expect(welchDifference([3, 3], [1, 1])).toEqual({ value: 2, interval: [2, 2] });
    expect(welchDifference([3, 4], [1])).toBeUndefined();
  });
});

describe('pooled standard deviation', () => {
  it("is the residual one of R's linear model of the groups", () => {
    expect(pooledSd(fromR.pooled.groups)?.value).toBeCloseTo(fromR.pooled.sd, 12);
  });

  it('of 1, 2, 3 and 11, 12, 13 is 1, its interval e^(±1.645·√(1/8))', () => {
    // Kurtosis of -1, 0, 1, -1, 0, 1 is 1.5, so (k - 1)/(4n) = 1/48 is less than 1/(2ν) = 1/8.
    const estimate = pooledSd([
      [1, 2, 3],
      [11, 12, 13],
    ]);
    expect(estimate?.value).toBe(1);
    expectInterval(estimate, [0.559006, 1.78889], 5);
  });

  it('with one wild value is less sure: ten times 0 and once 11 have kurtosis 9.1', () => {
    // Residuals -1 ten times and 10 once: k = 11·10010/110² = 9.1, and (k - 1)/44 = 0.184091 is more than 1/20.
    const estimate = pooledSd([[...new Array<number>(10).fill(0), 11]]);
    expect(estimate?.value).toBeCloseTo(Math.sqrt(11), 12);
    expectInterval(estimate, [1.637461, 6.717717], 5);
  });

  it('leaves out groups of one, and has no answer for those alone', () => {
    expect(pooledSd([[1, 2, 3], [50], []])?.value).toBe(1);
    expect(pooledSd([[1], [2]])).toBeUndefined();
    expect(pooledSd([[5, 5, 5]])).toEqual({ value: 0, interval: [0, 0] });
  });
});

describe('shares', () => {
  it("have Clopper and Pearson's interval as R gives it (binom.test)", () => {
    expect(fromR.proportion).toHaveLength(5);
    for (const [k, n, low, high] of fromR.proportion) {
      expect(proportionEstimate(k, n)?.value).toBe(k / n);
      expectInterval(proportionEstimate(k, n), [low, high]);
    }
  });

  it('of nothing are undefined', () => {
    expect(proportionEstimate(0, 0)).toBeUndefined();
  });
});

describe('a 90 % interval holds the truth in 84–97 of 100 seeded samples of 24', () => {
  const SAMPLES = 400;
  const N = 24;
  const { normal } = seeded(2024);
  const sample = (mean: number, sd: number): number[] =>
    Array.from({ length: N }, () => mean + sd * normal());
  /** Share of samples whose interval holds `truth`. */
  const coverage = (truth: number, estimate: () => Estimate | undefined): number => {
    let held = 0;
    for (let i = 0; i < SAMPLES; i++) {
      const [low, high] = estimate()!.interval;
      if (low <= truth && truth <= high) held++;
    }
    return held / SAMPLES;
  };
  // The area under the curve of two normals one standard deviation apart is Φ(1/√2) = 0.760250 (scipy).
  const rows: [name: string, truth: number, estimate: () => Estimate | undefined][] = [
    ['median', -20, () => medianEstimate(distributionOf(sample(-20, 2)))],
    ['difference', 14, () => medianDifference(distributionOf(sample(-6, 1)), distributionOf(sample(-20, 2)))],
    ['spread', 2, () => spreadEstimate(distributionOf(sample(-20, 2)))],
    ['clarity', 0.76025, () => clarityEstimate(distributionOf(sample(1, 1)), distributionOf(sample(0, 1)))],
    ['mean', 3, () => meanEstimate(sample(3, 8))],
    ['Welch difference', 10, () => welchDifference(sample(8, 4), sample(-2, 9))],
    ['pooled sd', 9, () => pooledSd([sample(4, 9), sample(-6, 9)])],
  ];
  it.each(rows)('%s', (_, truth, estimate) => {
    const share = coverage(truth, estimate);
    expect(share).toBeGreaterThan(0.84);
    expect(share).toBeLessThan(0.97);
  });
});
