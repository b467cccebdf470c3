import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../../src/exercises/phrase';
import { compareTakes, type Compared } from '../../../src/insight/compare/compare';
import { comparisonWords, measureWords, placeWords } from '../../../src/insight/compare/compare-words';
import { difference } from '../../../src/grading/numbers/difference';
import type { Fault } from '../../../src/model/faults';
import { gradeTake } from '../../../src/take/grade-take';
import { modelTake } from '../../../src/model/model-player';

const WALK = phraseNamed('Single paradiddle, accent walk');

function played(seed: number, faults: readonly Fault[] = [], bpm = 84): Compared {
  const { take } = modelTake({ phrase: WALK, bpm, seed, faults });
  return { report: gradeTake(take), phrase: take.phrase };
}
const LEAK: readonly Fault[] = [{ kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' }];

describe('two takes side by side', () => {
  it('a leak of 6 dB that is gone is what differs most, and no noise', () => {
    const comparison = compareTakes(played(1, LEAK), played(2));
    expect(comparisonWords(comparison)).toMatch(
      /^accent on 4: leak before from L 5\.\d dB to [LR] −?0\.\d dB\.$|^accent on 4: the fourth|^accent on 4: .*from/,
    );
    const place = comparison.places.find(({ variation, slot }) => variation === 'accent on 4' && slot === 6)!;
    expect(place).toMatchObject({ hand: 'L', n: [16, 16], insideNoise: false });
    expect(place.levelDb?.value).toBeLessThan(-5);
    expect(placeWords(place)).toMatch(/^[56]\.\d dB softer, \d ms (earlier|later)$/);
  });

  it('two takes of one steady player differ by nothing but noise', () => {
    const comparison = compareTakes(played(3), played(4));
    // 32 places, each looked at twice, are held to 10 % together
    expect(comparison.places.filter(({ insideNoise }) => !insideNoise)).toHaveLength(0);
    expect(comparisonWords(comparison)).toBe('Nothing differs by more than chance may make.');
    const noisy = comparison.measures.filter(({ insideNoise }) => insideNoise);
    expect(noisy.length / comparison.measures.length).toBeGreaterThan(0.8);
    expect(measureWords(noisy[0])).toMatch(/inside the noise$/);
  });

  it('a take differs from itself by nothing, and the other way round only in sign', () => {
    const [a, b] = [played(5), played(6, LEAK)];
    for (const {
      difference: { value },
    } of compareTakes(a, a).measures)
      expect(value).toBe(0);
    expect(comparisonWords(compareTakes(a, a))).toBe('Nothing differs by more than chance may make.');
    const there = compareTakes(a, b).places.map(({ levelDb }) => levelDb?.value ?? 0);
    const back = compareTakes(b, a).places.map(({ levelDb }) => -(levelDb?.value ?? 0));
    there.forEach((value, index) => expect(back[index]).toBeCloseTo(value, 12));
  });

  it('at another tempo is still the same phrase; another phrase is refused by its first odd bar', () => {
    expect(compareTakes(played(7), played(8, [], 96)).places).toHaveLength(32);
    const other = { ...played(7), phrase: phraseNamed('Single paradiddle, rotations') };
    expect(() => compareTakes(played(7), other)).toThrow('bars[0] must be the same in both takes');
  });

  it('an offset of the rig is no difference', () => {
    const { take } = modelTake({ phrase: WALK, bpm: 84, seed: 9 });
    const late = { ...take, hits: take.hits.map((hit) => ({ ...hit, atMs: hit.atMs + 20 })) };
    const { places } = compareTakes(
      { report: gradeTake(take), phrase: WALK },
      { report: gradeTake(late), phrase: WALK },
    );
    for (const { deviationMs } of places) expect(deviationMs?.value).toBeCloseTo(0, 6);
  });
});

describe('a difference of two figures', () => {
  it('keeps lopsided intervals lopsided: 5 (4 to 8) less 2 (2 to 2) is 3 (2 to 6)', () => {
    expect(difference({ value: 5, interval: [4, 8] }, { value: 2, interval: [2, 2] })).toEqual({
      value: 3,
      interval: [2, 6],
    });
  });
});
