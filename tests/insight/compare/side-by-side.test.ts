import { describe, expect, it } from 'vitest';
import { differencesByPlace } from '../../../src/components/pictures/differences';
import { pictureCsv } from '../../../src/components/pictures/rows-csv';
import { steadyModelOf } from '../../../src/insight/compare/steady-model';
import { bandsOfTake } from '../../../src/components/pictures/bands-of-take';
import { phraseNamed } from '../../../src/exercises/phrase';
import { blindBarsOfTwo, sideBySide } from '../../../src/insight/compare/side-by-side';
import type { Fault } from '../../../src/model/faults';
import { gradeTake } from '../../../src/take/grade-take';
import { modelTake } from '../../../src/model/model-player';
import type { Reviewed } from '../../../src/take/reviewed';
import type { Take } from '../../../src/sessions/types';

const LEAK: readonly Fault[] = [{ kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' }];

function played(seed: number, faults: readonly Fault[], more: Partial<Take> = {}): Reviewed {
  const { take } = modelTake({
    phrase: phraseNamed('Single paradiddle, accent walk'),
    bpm: 84,
    seed,
    faults,
  });
  const own = { ...take, ...more };
  return { take: own, report: gradeTake(own) };
}

describe('two takes set side by side', () => {
  const before = played(1, LEAK, { source: 'played', recordedAt: '2026-11-20T10:00:00.000Z' });
  const after = played(2, [], { source: 'played', recordedAt: '2026-11-24T10:00:00.000Z' });

  it('the earlier comes first, whichever of them is open', () => {
    for (const [open, beside] of [
      [before, after],
      [after, before],
    ] as const) {
      const { first, comparison } = sideBySide(open, beside);
      expect(first).toBe(before);
      const place = comparison.places.find(
        ({ variation, slot }) => variation === 'accent on 4' && slot === 6,
      );
      // A leak of 6 dB that is gone.
      expect(place?.levelDb?.value).toBeLessThan(-5);
    }
  });

  it('the model player’s comes before a player’s, however late it was made', () => {
    const model = played(3, [], { recordedAt: '2026-12-24T10:00:00.000Z' });
    expect(model.take.source).toBe('model');
    expect(sideBySide(before, model).first).toBe(model);
  });

  it('by ear: bars of both, with nothing missed in them', () => {
    const hits = before.take.hits.filter((_, index) => index !== 3);
    const short: Reviewed = { take: { ...before.take, hits }, report: gradeTake({ ...before.take, hits }) };
    const bars = blindBarsOfTwo(short, after);
    expect(new Set(bars.map(({ answer }) => answer))).toEqual(new Set(['this take', 'the other take']));
    expect(bars.some(({ take, bar }) => take === 0 && bar === 0)).toBe(false);
    expect(bars.some(({ take, bar }) => take === 1 && bar === 0)).toBe(true);
    // 8 cycles of 4 variations, one bar of the first broken: 31 of each, so that the variation tells nothing
    expect(bars.filter(({ take }) => take === 0)).toHaveLength(31);
    for (const variation of after.report.variations.map(({ name }) => name)) {
      const of = (index: number): number =>
        bars.filter(({ take, bar }) => take === index && after.report.bars[bar].variation === variation)
          .length;
      expect(of(0)).toBe(of(1));
    }
  });

  it('the model player plays the very phrase, tempo and length of any take, and nothing of it is a fault', () => {
    for (const name of ['Single paradiddle, rotations', 'Flam accent']) {
      const { take } = modelTake({ phrase: phraseNamed(name), bpm: 71, seed: 9, faults: LEAK });
      const model = steadyModelOf(take);
      expect(model).toMatchObject({ source: 'model', tempo: { bpm: 71 }, phrase: take.phrase });
      expect(gradeTake(model).variations.map(({ band }) => band)).not.toContain('not yet');
      expect(gradeTake(model).sentence).toMatch(/holds/);
    }
  });

  it('differences place by place: the title is the finding, with the interval of each', () => {
    const picture = differencesByPlace(sideBySide(after, before));
    // A leak of 6 dB that is gone.
    expect(picture?.title).toMatch(/^The seventh stroke is [56]\.\d dB softer than in the earlier take/);
    expect(picture?.of).toBe('accent on 4');
    const row = picture!.rows[6];
    expect(row.R).toBeNull();
    expect(row.L!.median).toBeLessThan(-5);
    expect(row.L!.spread).toBeLessThan(1.5);
    expect(row.L!.out).toBe(true);
    expect(differencesByPlace(sideBySide(after, after))?.title).toBe(
      'No place differs in level by more than chance may make',
    );
    expect(pictureCsv(picture!).split('\r\n')[0]).toBe(
      'row,hand,difference dB,half the 90 % interval dB,strokes,band low,band high',
    );
  });

  it('a take’s levels as bands hold four of its own strokes in five, and reach 1.5 dB at least', () => {
    const bands = bandsOfTake(after.report);
    const inside = after.report.slots.filter(({ level, slot, bar }) => {
      const band = bands(after.report.bars[bar].variation, slot);
      return level !== null && band !== undefined && level >= (band.fromDb ?? 0) && level <= (band.toDb ?? 0);
    });
    expect(inside.length / after.report.slots.length).toBeGreaterThan(0.75);
    const accent = bands('accent on 1', 0);
    expect((accent?.toDb ?? 0) - (accent?.fromDb ?? 0)).toBeGreaterThanOrEqual(3);
    expect(bands('no such variation', 0)).toBeUndefined();
  });
});
