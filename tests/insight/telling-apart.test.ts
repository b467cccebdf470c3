import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';
import { blindBarsOf } from '../../src/insight/telling-apart';

function blind(name: string) {
  const { take } = modelTake({ phrase: phraseNamed(name), bpm: 84, seed: 2, cycles: 4 });
  return blindBarsOf(gradeTake(take), take);
}

describe('bars to be told apart by ear', () => {
  it('are all sixteen of four rotations in four cycles', () => {
    const bars = blind('Single paradiddle, rotations');
    expect(bars).toHaveLength(16);
    expect(new Set(bars.map(({ answer }) => answer)).size).toBe(4);
  });

  it('are none of an accent walk, where the accent alone tells', () => {
    expect(blind('Single paradiddle, accent walk')).toEqual([]);
  });
});
