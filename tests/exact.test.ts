import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atan2, cos, exp, ln, log10, power, sin } from '../src/exact';

/** Relative to the larger of the value and `scale`: the engine's own functions are the reference. */
const near = (a: number, b: number, scale = 0): number =>
  Math.abs(a - b) / Math.max(Math.abs(b), scale, 1e-300);

describe('functions that are the same in every engine, against the engine’s own', () => {
  it('ln and log10', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-300, max: 1e300, noNaN: true }), (x) => {
        expect(near(ln(x), Math.log(x), 1e-3)).toBeLessThan(5e-16);
        expect(near(log10(x), Math.log10(x), 1e-3)).toBeLessThan(7e-16);
      }),
      { numRuns: 5000 },
    );
    expect([ln(1), ln(0), ln(Infinity)]).toEqual([0, -Infinity, Infinity]);
    expect(ln(-1)).toBeNaN();
    expect(near(ln(5e-324), Math.log(5e-324))).toBeLessThan(1e-15);
  });

  it('exp and power', () => {
    fc.assert(
      fc.property(fc.double({ min: -700, max: 700, noNaN: true }), (x) => {
        expect(near(exp(x), Math.exp(x))).toBeLessThan(5e-16);
      }),
      { numRuns: 5000 },
    );
    expect([exp(0), exp(-800), exp(800)]).toEqual([1, 0, Infinity]);
    expect(near(exp(-744), Math.exp(-744))).toBeLessThan(1e-15);
    expect(power(10, 2)).toBeCloseTo(100, 11);
  });

  it('sin, cos and atan2', () => {
    fc.assert(
      fc.property(fc.double({ min: -1000, max: 1000, noNaN: true }), (x) => {
        expect(Math.abs(sin(x) - Math.sin(x))).toBeLessThan(2e-15);
        expect(Math.abs(cos(x) - Math.cos(x))).toBeLessThan(2e-15);
      }),
      { numRuns: 5000 },
    );
    const side = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(side, side, (y, x) => {
        fc.pre(Math.abs(x) + Math.abs(y) > 1e-9);
        expect(Math.abs(atan2(y, x) - Math.atan2(y === 0 ? 0 : y, x))).toBeLessThan(2e-15);
      }),
      { numRuns: 5000 },
    );
  });
});
