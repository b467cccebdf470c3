import { describe, expect, it } from 'vitest';
import { gmPercussionName, suggestedFor } from '../../../src/midi/learning/gm-percussion';
import { editedSurfaces } from '../../../src/midi/learning/edit-surfaces';
import { nextStrike, noSurfaces, surfacesFound } from '../../../src/midi/learning/surfaces';
import type { RawHit } from '../../../src/stroke';

const hit = (atMs: number, note: number, velocity = 90, port = 'Kit', channel = 10): RawHit => ({
  atMs,
  port,
  channel,
  note,
  velocity,
});
const strike = (...hits: RawHit[]) => hits.reduce(nextStrike, noSurfaces);
const told = (...hits: RawHit[]) => surfacesFound(strike(...hits)).map(({ name, notes }) => [name, notes]);

// General MIDI level 1 percussion key map
describe('the General MIDI percussion map', () => {
  it('has 47 names, each once, from 35 to 81', () => {
    const names = Array.from({ length: 128 }, (_, note) => gmPercussionName(note));
    const named = names.filter((name) => name !== undefined);
    expect(named).toHaveLength(47);
    expect(new Set(named).size).toBe(47);
    expect([names[34], names[82]]).toEqual([undefined, undefined]);
  });

  // cross-check: the MusicXML tutorial's 1-based 37 kick, 39 snare, 43 closed hi-hat, 50 crash, 57 cowbell
  it.each([
    [36, 'Bass Drum 1'],
    [38, 'Acoustic Snare'],
    [42, 'Closed Hi-Hat'],
    [49, 'Crash Cymbal 1'],
    [56, 'Cowbell'],
    [35, 'Acoustic Bass Drum'],
    [81, 'Open Triangle'],
  ])('%i is %s', (note, name) => {
    expect(gmPercussionName(note)).toBe(name);
  });

  it('calls a note outside it by its number', () => {
    expect(suggestedFor(22).name).toBe('Note 22');
  });
});

// What belongs together: common practice, from memory
describe('surfaces by striking them', () => {
  it('head, rim and rim shot of a snare are one', () => {
    expect(told(hit(0, 38), hit(600, 40), hit(1200, 37), hit(1800, 38))).toEqual([['Snare', [38, 40, 37]]]);
  });

  it('a hi-hat is one over its pedal positions, and its foot another', () => {
    expect(told(hit(0, 42), hit(600, 46), hit(1200, 44))).toEqual([
      ['Hi-hat', [42, 46]],
      ['Hi-hat foot', [44]],
    ]);
  });

  it('the feet are known by their notes', () => {
    expect(surfacesFound(strike(hit(0, 36), hit(600, 44), hit(1200, 38))).map(({ foot }) => foot)).toEqual([
      'K',
      'H',
      undefined,
    ]);
  });

  it('two pads on two ports with one note are two', () => {
    const found = surfacesFound(strike(hit(0, 38, 90, 'Left'), hit(600, 38, 90, 'Right')));
    expect(found.map(({ name, port }) => [name, port])).toEqual([
      ['Snare', 'Left'],
      ['Snare 2', 'Right'],
    ]);
  });

  it('so are two on two channels', () => {
    expect(surfacesFound(strike(hit(0, 38, 90, 'Kit', 10), hit(600, 38, 90, 'Kit', 1)))).toHaveLength(2);
  });

  it('two unknown notes within 10 ms are zones of one', () => {
    expect(told(hit(0, 20, 80), hit(10, 21, 70))).toEqual([['Note 20', [20, 21]]]);
    expect(told(hit(0, 20, 80), hit(11, 21, 70))).toHaveLength(2);
  });

  it('what sounds only under a louder strike is crosstalk and no surface, before or after it', () => {
    expect(told(hit(0, 38, 100), hit(3, 48, 20), hit(600, 45, 12), hit(602, 38, 110))).toEqual([
      ['Snare', [38]],
    ]);
  });

  it('and is one after a strike of its own', () => {
    expect(told(hit(0, 38, 100), hit(3, 48, 20), hit(900, 48, 60))).toEqual([
      ['Snare', [38]],
      ['Hi-Mid Tom', [48]],
    ]);
  });
});

describe('surfaces changed by hand', () => {
  const both = strike(hit(0, 38), hit(600, 37), hit(1200, 48));
  const names = (state: typeof both) => surfacesFound(state).map(({ name, notes }) => [name, notes]);

  it('a rim split off may start and stop a take', () => {
    const apart = editedSurfaces(both, { kind: 'split', id: 'surface-1', notes: [37] });
    expect(names(apart)).toEqual([
      ['Snare', [38]],
      ['Hi-Mid Tom', [48]],
      ['Snare rim', [37]],
    ]);
    const struckOnce = nextStrike(apart, hit(2000, 37));
    expect(surfacesFound(struckOnce)).toHaveLength(3);
  });

  it('two are merged, renamed and given a hand', () => {
    const one = editedSurfaces(both, { kind: 'merge', id: 'surface-1', other: 'surface-2' });
    const named = editedSurfaces(one, { kind: 'rename', id: 'surface-1', name: ' Practice pad ' });
    const handed = editedSurfaces(named, { kind: 'hand', id: 'surface-1', hand: 'L' });
    expect(surfacesFound(handed)).toMatchObject([{ name: 'Practice pad', notes: [38, 37, 48], hand: 'L' }]);
  });

  it('not over two ports', () => {
    const two = strike(hit(0, 38), hit(600, 38, 90, 'Other'));
    expect(() => editedSurfaces(two, { kind: 'merge', id: 'surface-1', other: 'surface-2' })).toThrow(
      'other must be on the same port and channel to be one surface, got "Snare 2: Other, channel 10"',
    );
  });

  it('a split must leave something', () => {
    expect(() => editedSurfaces(both, { kind: 'split', id: 'surface-2', notes: [48] })).toThrow(
      'notes must be some of the surface’s notes and not all, got [48]',
    );
  });
});
