import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unexplained } from '../../../src/grading/numbers/unexplained';

// Arithmetic by hand; the rule is this app's own.
describe('a difference less what explains it', () => {
  const six = { value: 6, interval: [5, 7] } as const;

  it('is what is left', () => {
    expect(unexplained(six, 4)).toEqual({ value: 2, interval: [1, 3] });
    expect(unexplained({ value: -6, interval: [-7, -5] }, -4)).toEqual({ value: -2, interval: [-3, -1] });
  });

  it('is nought where all is explained, and no fault the other way', () => {
    expect(unexplained(six, 9)).toEqual({ value: 0, interval: [-1, 1] });
  });

  it('stays where the explanation points the other way', () => {
    expect(unexplained(six, -4)).toEqual(six);
  });

  it('is as wide as both together: 3 and 4 make 5', () => {
    expect(unexplained({ value: 9, interval: [6, 12] }, 1, 4)).toEqual({ value: 8, interval: [3, 13] });
  });

  it('never grows', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 30, noNaN: true }),
        fc.double({ min: -30, max: 30, noNaN: true }),
        (value, by) => {
          expect(Math.abs(unexplained({ value, interval: [value, value] }, by).value)).toBeLessThanOrEqual(
            Math.abs(value),
          );
        },
      ),
    );
  });
});
