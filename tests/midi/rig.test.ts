import { describe, expect, it } from 'vitest';
import { handsOf, rigFromStrikes, strokeOf, surfaceFinder, thresholdDbOf } from '../../src/midi/rig';
import type { Rig, Surface } from '../../src/sessions/types';
import { settingsOf } from '../../src/settings';
import type { RawHit } from '../../src/stroke';

const hit = (note: number, more: Partial<RawHit> = {}): RawHit => ({
  atMs: 1000,
  port: 'Kit A',
  channel: 10,
  note,
  velocity: 100,
  ...more,
});

const surface = (id: string, notes: number[], more: Partial<Surface> = {}): Surface => ({
  id,
  name: id,
  port: '*',
  channel: 10,
  notes,
  hand: null,
  trimDb: 0,
  ...more,
});

const rigOf = (...surfaces: Surface[]): Rig => ({
  levelLaw: 'gm2',
  inputDelayMs: 0,
  outputDelayMs: 0,
  surfaces,
});

describe('which surface a note is', () => {
  // Notes 38 and 40 are the two snare drums, 37 the side stick of General MIDI percussion (level 1 key map).
  const find = surfaceFinder(
    rigOf(surface('snare', [38, 40]), surface('other kit', [38], { port: 'Kit B' }), surface('rim', [37])),
  );

  it('is one surface for all the notes it owns', () => {
    expect(find(hit(38))?.id).toBe('snare');
    expect(find(hit(40))?.id).toBe('snare');
    expect(find(hit(37))?.id).toBe('rim');
  });

  it('is the surface that names the port before the one that takes any', () => {
    expect(find(hit(38, { port: 'Kit B' }))?.id).toBe('other kit');
    expect(find(hit(38, { port: 'Kit C' }))?.id).toBe('snare');
  });

  it('is none for a note or a channel nobody owns', () => {
    expect(find(hit(36))).toBeUndefined();
    expect(find(hit(38, { channel: 1 }))).toBeUndefined();
  });
});

describe('a hit as a stroke', () => {
  it('comes earlier by both delays and has the level of its velocity plus the trim', () => {
    const rig: Rig = { ...rigOf(surface('pad', [38], { trimDb: 1.5 })), inputDelayMs: 4, outputDelayMs: 11 };
    const stroke = strokeOf(rig, rig.surfaces[0], hit(38, { velocity: 64 }), 7, false);
    expect(stroke.atMs).toBe(985);
    // 40·log10(64/127) = -11.905 dB: recommended velocity response of General MIDI 2.
    expect(stroke.levelDb).toBeCloseTo(-11.905 + 1.5, 3);
    expect(stroke).toMatchObject({ hit: 7, velocity: 64, surface: 'pad', hand: null, echoLike: false });
  });
});

describe('a rig from one strike with each hand', () => {
  it('is one surface of nobody where both strike the same note', () => {
    const rig = rigFromStrikes({ first: hit(38), second: hit(38, { atMs: 2000 }), firstHand: 'R' });
    expect(rig?.surfaces).toEqual([
      {
        id: 'pad',
        name: 'Pad',
        port: 'Kit A',
        channel: 10,
        notes: [38],
        hand: null,
        trimDb: 0,
      },
    ]);
    expect(rig && handsOf(rig)).toBe('assumed');
  });

  it('is a surface a hand where the notes differ, whichever hand came first', () => {
    const rig = rigFromStrikes({ first: hit(48), second: hit(38), firstHand: 'L' });
    expect(rig?.surfaces.map(({ id, hand, notes }) => ({ id, hand, notes }))).toEqual([
      { id: 'right', hand: 'R', notes: [38] },
      { id: 'left', hand: 'L', notes: [48] },
    ]);
    expect(rig && handsOf(rig)).toBe('known');
  });

  it('is a surface a hand where two pads on two ports send the same note', () => {
    const rig = rigFromStrikes({ first: hit(38), second: hit(38, { port: 'Pad (2)' }), firstHand: 'R' });
    expect(rig?.surfaces.map(({ id, port }) => ({ id, port }))).toEqual([
      { id: 'right', port: 'Kit A' },
      { id: 'left', port: 'Pad (2)' },
    ]);
  });

  it('waits for the second hand', () => {
    expect(rigFromStrikes({ first: hit(38), second: null, firstHand: 'R' })).toBeUndefined();
  });
});

it('hands are mixed where one surface is one hand’s and another is not', () => {
  expect(handsOf(rigOf(surface('a', [38], { hand: 'R' }), surface('b', [40])))).toBe('mixed');
});

it('gives nothing under the level of velocity 6, or under the highest that a surface has learned', () => {
  // 40·log10(6/127) = -53.03 dB, 40·log10(10/127) = -44.15 dB: General MIDI 2.
  const settings = settingsOf('working');
  expect(thresholdDbOf(rigOf(surface('a', [38])), settings)).toBeCloseTo(-53.03, 2);
  const learned = surface('b', [40], { thresholdVelocity: 10, trimDb: -2 });
  expect(thresholdDbOf(rigOf(surface('a', [38]), learned), settings)).toBeCloseTo(-46.15, 2);
});
