import { describe, expect, it } from 'vitest';
import { tappedBpm, withTap } from '../../src/click/tapping';

// 60,000 ms a minute: taps 625 ms apart are 96 bpm (arithmetic).
const tapped = (...timesMs: number[]): number | undefined =>
  tappedBpm(timesMs.reduce<readonly number[]>((taps, atMs) => withTap(taps, atMs), []));

describe('tapping a tempo', () => {
  it('one tap says nothing', () => {
    expect(tapped(1000)).toBeUndefined();
  });

  it('taps 625 ms apart are 96 bpm', () => {
    expect(tapped(0, 625, 1250, 1875)).toBe(96);
  });

  it('an uneven hand is averaged: 620, 635, 620 ms are 96 bpm', () => {
    expect(tapped(0, 620, 1255, 1875)).toBe(96);
  });

  it('a pause of three seconds begins anew', () => {
    expect(tapped(0, 500, 1000, 4000)).toBeUndefined();
    expect(tapped(0, 500, 1000, 4000, 4750)).toBe(80);
  });

  it('twice as slow is a new tempo at once', () => {
    expect(tapped(0, 500, 1000, 1500, 2500)).toBe(60);
  });

  it('the bounce of a pad 40 ms later is no tap', () => {
    expect(tapped(0, 40, 500, 541, 1000)).toBe(120);
  });

  it('only the last eight taps count, so a tempo that creeps is followed', () => {
    const slow = Array.from({ length: 12 }, (_, index) => index * 600);
    const faster = Array.from({ length: 8 }, (_, index) => slow[11] + (index + 1) * 500);
    expect(tapped(...slow, ...faster)).toBe(120);
  });
});
