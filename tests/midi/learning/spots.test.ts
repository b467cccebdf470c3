import { describe, expect, it } from 'vitest';
import { nextAsked } from '../../../src/midi/learning/asked-strokes';
import { weightedMeans } from '../../../src/midi/learning/cell-means';
import {
  rigWithSpots,
  spotsAsked,
  spotsFound,
  spotWords,
  type AskedSpot,
} from '../../../src/midi/learning/spots';
import { rigWithTrims, trimsAsked, trimsFound } from '../../../src/midi/learning/trims';
import { plainRigOf, reportedBy, type ModelKit } from '../../model-kit';
import { welchDifference } from '../../../src/grading/numbers/intervals';
import { struckAsAsked } from './strikes';

/** Right hand 1.5 dB louder than the left, on a pad whose right spot reads 3 dB louder. */
const kit: ModelKit = { pads: [{ id: 'pad', note: 38, hotSpotDb: 3 }] };
const rig = plainRigOf(kit);
const places = { R: 'pad', L: 'pad' };
const found = (seed: number) => {
  const asked = spotsAsked(places);
  const strikes = struckAsAsked(asked.asked, ({ hand }) => (hand === 'R' ? -18 : -19.5), seed, 0.8);
  return spotsFound(reportedBy(kit, strikes, seed).hits.reduce(nextAsked<AskedSpot>(rig), asked))!;
};

// Levels within 0.5 dB
describe('swap spots', () => {
  const all = Array.from({ length: 50 }, (_, seed) => found(seed + 1));

  it('tells the hot spot from the hand within 0.5 dB', () => {
    const within = all.filter(
      ({ spot, hand }) => Math.abs(spot.value - 3) < 0.5 && Math.abs(hand.value - 1.5) < 0.5,
    ).length;
    expect(within).toBeGreaterThanOrEqual(48);
    expect(all.reduce((sum, { spot }) => sum + spot.value, 0) / 50).toBeCloseTo(3, 1);
  });

  it('what is left covers the truth nine times in ten', () => {
    const covered = all.filter(({ spot, trims }) => Math.abs(spot.value - 3) <= trims.leftDb).length;
    expect(covered).toBeGreaterThanOrEqual(40);
    expect(all[0].trims.leftDb).toBeLessThan(0.5);
  });

  it('the trims take half from the one and give half to the other', () => {
    const { spot, trims } = all[0];
    expect(trims.L - trims.R).toBeCloseTo(spot.value, 10);
    expect(rigWithSpots(rig, places, all[0]).surfaces[0].spots).toEqual(trims);
  });

  it('says what is taken off, what stays, and what this pad does not tell', () => {
    const told = {
      spot: { value: -3, interval: [-3.4, -2.6] as const },
      hand: { value: 0.2, interval: [-0.2, 0.6] as const },
      interaction: { value: 1.2, interval: [0.8, 1.6] as const },
      trims: { R: 1.5, L: -1.5, leftDb: 0.4 },
    };
    expect(spotWords(told)).toEqual([
      'Where the left hand lands the pad reads 3.0 dB louder: taken off.',
      'Both hands strike alike.',
      'A balance finer than 0.4 dB is not told by this pad.',
      'A hand struck otherwise on the other’s spot, so this may be off. Swap spots once more.',
    ]);
  });

  it('says nothing before all four were struck', () => {
    expect(spotsFound(spotsAsked(places))).toBeUndefined();
  });
});

describe('trims between surfaces by one hand', () => {
  const two: ModelKit = {
    pads: [
      { id: 'a', note: 38, gainDb: 2 },
      { id: 'b', note: 48, gainDb: -2 },
      { id: 'c', note: 43, gainDb: 0 },
    ],
  };

  it('are found within 0.5 dB and marked as set', () => {
    for (let seed = 1; seed <= 30; seed += 1) {
      const asked = trimsAsked(['a', 'b', 'c'], 'R');
      const hits = reportedBy(
        two,
        struckAsAsked(asked.asked, () => -14, seed, 0.8),
        seed,
      ).hits;
      const trims = trimsFound(hits.reduce(nextAsked(plainRigOf(two)), asked))!;
      trims.forEach(({ trimDb }, index) => {
        expect(Math.abs(trimDb - [-2, 2, 0][index])).toBeLessThan(0.5);
      });
      expect(rigWithTrims(plainRigOf(two), trims).surfaces[0]).toMatchObject({ trimmed: true });
    }
  });
});

// Welch 1947: with two cells the contrast is Welch's t, as grading has it (checked there against R)
it('a contrast of two means has the interval of Welch’s t', () => {
  const [a, b] = [
    [1, 3, 4, 9],
    [2, 2, 5],
  ];
  const contrast = weightedMeans([
    { values: a, weight: 1 },
    { values: b, weight: -1 },
  ])!;
  const welch = welchDifference(a, b)!;
  expect(contrast.value).toBeCloseTo(welch.value, 12);
  expect(contrast.interval[0]).toBeCloseTo(welch.interval[0], 9);
});
