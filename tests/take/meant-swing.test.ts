import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import type { Take } from '../../src/sessions/types';
import { gradeTake } from '../../src/take/grade-take';
import { asSwung, swingPlayed } from '../../src/take/meant-swing';

/** The model player’s take with every second stroke as late as a swing has it. */
function swung(name: string, swing: number, cycles: number): Take {
  const { take, grid, truth } = modelTake({ phrase: phraseNamed(name), bpm: 84, seed: 12, cycles });
  const later = new Map(
    grid.slots.flatMap(({ partialInBeat, gapMs, index }) => {
      const hit = truth.hitOfSlot[index];
      return partialInBeat % 2 === 1 && hit !== null ? [[hit, (2 * swing - 1) * gapMs] as const] : [];
    }),
  );
  const hits = take.hits.map((hit, i) => ({ ...hit, atMs: hit.atMs + (later.get(i) ?? 0) }));
  return { ...take, hits: hits.sort((a, b) => a.atMs - b.atMs) };
}

describe('I meant to swing', () => {
  it('sets the phrase’s swing to what was played, rounded to 1 %; graded anew it holds', () => {
    const take = swung('Single paradiddle, accent walk', 0.618, 6);
    const report = gradeTake(take);
    expect(swingPlayed(report)).toBe(62);
    const again = asSwung(take, report)!;
    expect(again.phrase.swing).toBe(0.62);
    expect(again.phrase.title).toMatch(/, swing 62 %$/);
    const { measures, variations } = gradeTake(again);
    expect(measures.feel?.band).toBe('holds');
    expect(Math.abs(measures.feel!.value! + 0.2)).toBeLessThan(0.6);
    expect(variations.every(({ band }) => band === 'holds')).toBe(true);
    expect(asSwung(again, gradeTake(again))).toBeUndefined();
  });

  it('is offered for singles too, where a late hand may be swing', () => {
    const take = swung('Single stroke roll', 0.62, 12);
    const again = asSwung(take, gradeTake(take))!;
    expect(again.phrase.swing).toBe(0.62);
    expect(gradeTake(again).measures.lag?.band).toBe('holds');
  });

  it('a swing of 68 % is graded, not refused as another grid', () => {
    const take = swung('Single paradiddle, accent walk', 0.68, 6);
    const report = gradeTake(take);
    expect(report.fits).toBe(true);
    expect(swingPlayed(report)).toBe(68);
  });

  it('is not offered for straight play', () => {
    const take = swung('Single paradiddle, accent walk', 0.5, 4);
    expect(asSwung(take, gradeTake(take))).toBeUndefined();
  });
});
