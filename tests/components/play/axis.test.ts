import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axisY, bandOf, linesOf, outsideDb } from '../../../src/components/play/axis';
import { settingsOf } from '../../../src/settings';

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

describe('the bands', () => {
  it('a tap is in its band up to where softness holds: -16 dB, -12 in the first year, -20 in a recital', () => {
    expect(bandOf('tap', working, false)).toEqual({ fromDb: null, toDb: -16 });
    expect(bandOf('tap', settingsOf('first year'), false).toDb).toBe(-12);
    expect(bandOf('tap', settingsOf('recital'), false).toDb).toBe(-20);
  });

  it('an accent is due 12 dB over soft strokes of -20 dB', () => {
    expect(bandOf('accent', working, false)).toEqual({ fromDb: -8, toDb: null });
  });

  it('beside ghosts taps are due 5 dB higher, and ghosts take the soft band', () => {
    expect(bandOf('ghost', working, true)).toEqual({ fromDb: null, toDb: -16 });
    expect(bandOf('tap', working, true)).toEqual({ fromDb: -19, toDb: -11 });
  });

  // grading.md section 1: soft strokes to half-way from low to half, accents from half-way from half to full
  it('of a rig that has learned heights end half-way between its lines, whatever the limits', () => {
    const learned = { low: -38, half: -20, full: -8 };
    expect(bandOf('tap', settingsOf('recital'), false, learned)).toEqual({ fromDb: null, toDb: -29 });
    expect(bandOf('accent', working, false, learned)).toEqual({ fromDb: -14, toDb: null });
    expect(bandOf('tap', working, true, learned)).toEqual({ fromDb: -33, toDb: -24 });
  });

  it('says by how much a stroke is out, negative where it is too soft', () => {
    expect(outsideDb(-13, bandOf('tap', working, false))).toBe(3);
    expect(outsideDb(-30, bandOf('tap', working, false))).toBe(0);
    expect(outsideDb(-11, bandOf('accent', working, false))).toBe(-3);
  });
});
