import { describe, expect, it } from 'vitest';
import {
  closestPairAsked,
  closestPairFound,
  closestPairWords,
  nextPair,
  pairsAnswered,
  rigWithClosestPair,
} from '../../../src/midi/learning/closest-pair';
import { plainRigOf, reportedBy, type ModelKit, type Struck } from '../../model-kit';
import { normal, seeded } from '../../../src/model/random';
import type { Rig } from '../../../src/sessions/types';
import { settingsOf } from '../../../src/settings';

const settings = settingsOf('working');
const heights = { low: { db: -22, n: 8 }, half: { db: -12, n: 8 }, full: { db: -4, n: 8 } };

/** Ten flams of 9, 12, … 36 ms, then ten doubles of 90 ms whose taps read 3 dB over low. */
function struck(seed: number): readonly Struck[] {
  const random = seeded(seed);
  const at = (n: number) => 700 * n;
  const flams = Array.from({ length: 10 }, (_, n): Struck[] => [
    { atMs: at(n) - 9 - 3 * n, pad: 'pad', levelDb: -20 },
    { atMs: at(n), pad: 'pad', levelDb: -6 },
  ]);
  const doubles = Array.from({ length: 10 }, (_, n): Struck[] => [
    { atMs: at(n + 10), pad: 'pad', levelDb: -4 },
    { atMs: at(n + 10) + 90, pad: 'pad', levelDb: -19 + 0.5 * normal(random) },
  ]);
  return [...flams, ...doubles].flat();
}

const found = (kit: ModelKit, withHeights = true) => {
  const plain = plainRigOf(kit);
  const rig: Rig = {
    ...plain,
    surfaces: [{ ...plain.surfaces[0], ...(withHeights ? { heights: { R: heights } } : {}) }],
  };
  const state = reportedBy(kit, struck(1), 1).hits.reduce(nextPair(rig), closestPairAsked('pad', 'R'));
  expect(pairsAnswered(state)).toBe(true);
  return { rig, found: closestPairFound(rig, settings, state) };
};

describe('ten tight flams and ten doubles', () => {
  it('a pad that merges strokes 20 ms apart: the closest pair is the first that arrives, 21 ms', () => {
    const result = found({ pads: [{ id: 'pad', note: 38, mergesMs: 20 }] }).found;
    expect(result).toMatchObject({ separate: 6, merged: 4, closestPairMs: 21, tapsLost: 0 });
  });

  it('a pad that merges none: the closest pair is the closest that was tried', () => {
    const { rig, found: result } = found({ pads: [{ id: 'pad', note: 38 }] });
    expect(result).toMatchObject({ separate: 10, merged: 0, closestPairMs: 9 });
    expect(rigWithClosestPair(rig, 'pad', result).surfaces[0].closestPairMs).toBe(9);
  });

  it('a tap after an accent reads 3 dB over low', () => {
    const { afterAccent } = found({ pads: [{ id: 'pad', note: 38 }] }).found;
    expect(Math.abs(afterAccent!.db - 3)).toBeLessThan(0.5);
    expect(afterAccent).toMatchObject({ withinMs: 90, n: 10 });
  });

  it('taps that a slow pad drops are counted, and nothing is said of their level', () => {
    const result = found({ pads: [{ id: 'pad', note: 38, mergesMs: 100 }] }).found;
    expect(result).toMatchObject({ separate: 0, merged: 10, closestPairMs: undefined, tapsLost: 10 });
    expect(result.afterAccent).toBeUndefined();
    expect(closestPairWords(result)).toEqual([
      'No flam arrived as two strokes: flams are not measured on this pad.',
      '10 taps right after an accent did not arrive.',
    ]);
  });

  it('without the hand’s low height there is nothing to hold taps against', () => {
    expect(found({ pads: [{ id: 'pad', note: 38 }] }, false).found.afterAccent).toBeUndefined();
  });
});
