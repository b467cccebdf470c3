import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countWhile, mean, median, medianInPlace, middleOf, scaledMadInPlace, select } from '../src/ordered';

describe('medians by selection', () => {
  it('the middle of an odd number, the mean of the two middle ones of an even one', () => {
    expect(medianInPlace(Float64Array.of(5, 1, 4, 2, 3))).toBe(3);
    expect(medianInPlace(Float64Array.of(4, 1, 3, 2))).toBe(2.5);
  });

  it('of the first few values only, where a count is given', () => {
    expect(medianInPlace(Float64Array.of(1, 2, 3, 100, 200), 3)).toBe(2);
  });

  it('there is none of nothing', () => {
    expect(medianInPlace(new Float64Array(0))).toBeUndefined();
    expect(scaledMadInPlace(new Float64Array(0))).toBeUndefined();
  });

  it('1.4826·MAD of 1, 2, 3, 4 and 100 is 1.4826: one far value has no say', () => {
    expect(scaledMadInPlace(Float64Array.of(1, 2, 3, 4, 100))).toBe(1.4826);
  });

  it('the k-th smallest is that of the sorted values, whatever their order', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1 }), fc.nat(), (values, any) => {
        const k = any % values.length;
        const sorted = [...values].sort((a, b) => a - b);
        expect(select(Float64Array.from(values), values.length, k)).toBe(sorted[k]);
      }),
    );
  });
});

describe('numbers in order', () => {
  const rising = fc.array(fc.integer({ min: -50, max: 50 })).map((all) => all.toSorted((a, b) => a - b));

  it('are counted up to the first that does not pass, as one by one', () => {
    fc.assert(
      fc.property(rising, fc.integer({ min: -60, max: 60 }), (all, limit) => {
        expect(countWhile(all.length, (index) => all[index] < limit)).toBe(
          all.filter((one) => one < limit).length,
        );
      }),
    );
  });

  it('none, all: 0, their number', () => {
    expect(countWhile(3, () => false)).toBe(0);
    expect(countWhile(3, () => true)).toBe(3);
    expect(countWhile(0, () => true)).toBe(0);
  });

  it('the middle of none is none; a median leaves its numbers as they are', () => {
    expect(middleOf([])).toBeUndefined();
    expect(median([])).toBeUndefined();
    expect(mean([])).toBeUndefined();
    const values = Object.freeze([10, 9, 100]);
    expect(median(values)).toBe(10);
    expect(median([4, 1, 2, 3])).toBe(2.5);
    expect(mean([0.1, 0.2, 0.3])).toBeCloseTo(0.2, 15);
  });
});
