import { describe, expect, it } from 'vitest';
import { bandContext, outsideDb, slotBand, softLevels } from '../../../src/grading/facts/level-bands';
import { settingsOf } from '../../../src/settings';

const working = settingsOf('working');
const slot = (kind: 'accent' | 'tap' | 'ghost', hand: 'R' | 'L' = 'R', shiftDb = 0) => ({
  kind,
  hand,
  shiftDb,
});
const fresh = bandContext(working, false);

// Source: limits of the grading design (common practice, no source).
describe('the band of a slot', () => {
  it('before anything was played: a tap up to where softness holds, -16 dB, -12 in the first year, -20 in a recital', () => {
    expect(slotBand(slot('tap'), fresh)).toEqual({ fromDb: null, toDb: -16 });
    expect(slotBand(slot('tap'), bandContext(settingsOf('first year'), false)).toDb).toBe(-12);
    expect(slotBand(slot('tap'), bandContext(settingsOf('recital'), false)).toDb).toBe(-20);
  });

  it('before anything was played an accent is due 12 dB over soft strokes of -20 dB', () => {
    expect(slotBand(slot('accent'), fresh)).toEqual({ fromDb: -8, toDb: null });
  });

  it('a tap is out from half-way between leaks of 2 and 5 dB over its own hand’s resting level', () => {
    const played = { ...fresh, restDb: { R: -22, L: -30 }, softDb: -26 };
    expect(slotBand(slot('tap', 'R'), played).toDb).toBe(-18.5);
    expect(slotBand(slot('tap', 'L'), played).toDb).toBe(-26.5);
  });

  it('a leak of 6 dB is out in the first year too, where a leak holds up to 4 and is not yet from 8', () => {
    const played = {
      ...bandContext(settingsOf('first year'), false),
      restDb: { R: -20, L: -20 },
      softDb: -20,
    };
    expect(slotBand(slot('tap'), played).toDb).toBe(-14);
    expect(outsideDb(-20 + 6, slotBand(slot('tap'), played))).toBe(0);
    expect(outsideDb(-20 + 6.1, slotBand(slot('tap'), played))).toBeCloseTo(0.1, 9);
  });

  it('the limit of softness stays where the hand rests louder than that', () => {
    const played = { ...fresh, restDb: { R: -15, L: -15 }, softDb: -15 };
    expect(slotBand(slot('tap'), played).toDb).toBe(-16);
  });

  it('an accent is due the contrast above what the player’s soft strokes really are', () => {
    expect(slotBand(slot('accent'), { ...fresh, softDb: -18 })).toEqual({ fromDb: -6, toDb: null });
  });

  it('beside ghosts taps are due 5 dB higher, and ghosts take the soft band', () => {
    const both = bandContext(working, true);
    expect(slotBand(slot('ghost'), both)).toEqual({ fromDb: null, toDb: -16 });
    expect(slotBand(slot('tap'), both)).toEqual({ fromDb: -19, toDb: -11 });
  });

  // grading.md section 1: soft strokes to half-way from low to half, accents from half-way from half to full
  it('of a rig that has learned heights ends half-way between its lines, whatever the limits', () => {
    const learned = { low: -38, half: -20, full: -8 };
    const played = { restDb: { R: -33, L: -33 }, softDb: -33 };
    const recital = { ...bandContext(settingsOf('recital'), false, learned), ...played };
    expect(slotBand(slot('tap'), recital)).toEqual({ fromDb: null, toDb: -29.5 });
    expect(slotBand(slot('accent'), recital)).toEqual({ fromDb: -14, toDb: null });
    expect(slotBand(slot('tap'), bandContext(working, true, learned))).toEqual({ fromDb: -33, toDb: -24 });
  });

  it('moves with the dynamics of the bar', () => {
    expect(slotBand(slot('tap', 'R', -19.1), fresh).toDb).toBeCloseTo(-35.1, 9);
  });

  it('says by how much a stroke is out, negative where it is too soft', () => {
    expect(outsideDb(-13, { fromDb: null, toDb: -16 })).toBe(3);
    expect(outsideDb(-30, { fromDb: null, toDb: -16 })).toBe(0);
    expect(outsideDb(-11, { fromDb: -8, toDb: null })).toBe(-3);
  });

  it('a hand’s middle counts from four soft strokes on', () => {
    expect(softLevels({ R: [-20, -21, -22], L: [-18, -19, -20, -21] })).toEqual({
      restDb: { R: null, L: -19.5 },
      softDb: -20,
    });
  });
});
