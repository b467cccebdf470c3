import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axisY, linesOf } from '../../../../src/sessions/paper/strip/axis';
import { settingsOf } from '../../../../src/settings';

const lines = { low: -24, half: -14, full: -4 };
const working = settingsOf('working');

// Source: our own look (the soft half has half the room) and the limits of the grading design; no outside source.
describe('the height axis', () => {
  it('has its lines at -24, -14 and -4 dB without learned heights', () => {
    expect(linesOf(working)).toEqual({ low: -24, half: -14, full: -4 });
  });

  it('gives the soft half half the room', () => {
    expect(axisY(-14, lines)).toBe(0.5);
    expect(axisY(-36, lines)).toBe(0);
    expect(axisY(0, lines)).toBe(1);
  });

  it('puts low a little over a quarter up and full near the top', () => {
    expect(axisY(-24, lines)).toBeCloseTo(0.2727, 4);
    expect(axisY(-4, lines)).toBeCloseTo(0.8571, 4);
  });

  it('holds strokes beyond the edges at the edges: velocity 1 is -84 dB', () => {
    expect(axisY(-84, lines)).toBe(0);
    expect(axisY(3, lines)).toBe(1);
  });

  it('never draws a louder stroke lower, whatever the heights of the rig', () => {
    const heights = fc
      .tuple(fc.double({ min: 1, max: 20, noNaN: true }), fc.double({ min: 1, max: 20, noNaN: true }))
      .map(([soft, loud]) => ({ low: -4 - loud - soft, half: -4 - loud, full: -4 }));
    const level = fc.double({ min: -90, max: 0, noNaN: true });
    fc.assert(
      fc.property(heights, level, level, (of, a, b) => {
        expect(axisY(Math.max(a, b), of)).toBeGreaterThanOrEqual(axisY(Math.min(a, b), of));
      }),
    );
  });
});
