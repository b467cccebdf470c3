import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { enduranceOf } from '../../src/insight/endurance';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';
import { openCloseOpen } from '../../src/insight/open-close-open';
import type { Take } from '../../src/sessions/types';
import type { Hand } from '../../src/stroke';

const WALK = phraseNamed('Single paradiddle, accent walk');
/** Nearly 4 minutes at 84 bpm. */
const LONG = { phrase: WALK, bpm: 84, cycles: 20 };

/** The take with every soft stroke so much louder where `where` says so. */
function louder(seed: number, db: number, where: (bar: number, hand: Hand) => boolean): Take {
  const { take, truth, grid } = modelTake({ ...LONG, seed });
  const hits = [...take.hits];
  for (const slot of grid.slots) {
    const hit = truth.hitOfSlot[slot.index];
    if (slot.kind === 'accent' || !where(slot.bar, slot.hand) || hit === null) continue;
    hits[hit] = { ...hits[hit], velocity: Math.min(127, Math.round(hits[hit].velocity * 10 ** (db / 40))) };
  }
  return { ...take, hits };
}
const endured = (take: Take) => enduranceOf(gradeTake(take), take.phrase, take.tempo);

describe('endurance', () => {
  it('taps that rise 3 dB after 2:11 are found there', () => {
    // bar 46 of 80 begins 46 × 2.857 s = 131.4 s after the first
    const found = endured(louder(1, 3, (bar) => bar >= 46));
    expect(found?.rose?.db).toBeGreaterThan(2.5);
    expect(Math.abs((found?.rose?.bar ?? 0) - 46)).toBeLessThanOrEqual(1);
    expect(found?.words).toMatch(
      /^Soft strokes rose [23]\.\d dB after 2:(08|11|14): stop there next time\.$/,
    );
    expect(found?.softDb?.interval[0]).toBeGreaterThan(2);
    expect(found?.contrastDb?.value).toBeLessThan(-2);
  });

  it.each([
    ['right', 'R', 1],
    ['left', 'L', -1],
  ] as const)(
    'a %s hand that comes up by 4 dB is named, and balance is right less left',
    (name, tired, sign) => {
      const found = endured(louder(7, 4, (bar, hand) => bar >= 40 && hand === tired));
      expect((found?.balanceDb?.value ?? 0) * sign).toBeGreaterThan(2);
      expect(found?.words).toContain(`most with the ${name}: stop there`);
    },
  );

  it('a steady player’s end is like the beginning, and nothing rose', () => {
    const found = endured(modelTake({ ...LONG, seed: 2 }).take);
    expect(found?.rose).toBeNull();
    expect(Math.abs(found?.softDb?.value ?? 9)).toBeLessThan(0.5);
    expect(found?.words).toBe('The end is like the beginning.');
  });

  it('a loud variation is no tiring, wherever it falls', () => {
    const take = modelTake({
      ...LONG,
      seed: 3,
      faults: [{ kind: 'softs', db: 5, variation: 'accent on 4' }],
    }).take;
    expect(endured(take)?.rose).toBeNull();
  });

  it('of under four cycles says nothing', () => {
    expect(endured(modelTake({ ...LONG, cycles: 3, seed: 4 }).take)).toBeUndefined();
    expect(endured(modelTake({ ...LONG, cycles: 4, seed: 4 }).take)).toBeDefined();
  });
});

describe('open, close, open', () => {
  const ramp = [
    { bar: 0, bpm: 60 },
    { bar: 24, bpm: 120 },
    { bar: 48, bpm: 60 },
  ];
  const climbed = (take: Take) => openCloseOpen(gradeTake(take), take.phrase, take.tempo);

  it('of a player who holds throughout says so', () => {
    const found = climbed(
      modelTake({ phrase: WALK, bpm: 60, ramp, cycles: 12, seed: 5, timingSdMs: 4 }).take,
    );
    expect(found?.words).toMatch(/^Everything holds, up to 1[12]\d and down again\.$/);
    expect(found?.unevenPercent).toBeLessThan(0.5);
  });

  it('finds where contrast is lost above 96 bpm, and where it is back', () => {
    const { take, truth, grid } = modelTake({
      phrase: WALK,
      bpm: 60,
      ramp,
      cycles: 12,
      seed: 6,
      timingSdMs: 4,
    });
    const hits = [...take.hits];
    for (const slot of grid.slots) {
      const bar = grid.bars[slot.bar];
      const bpm = (4 * 60_000) / (bar.endMs - bar.startMs);
      const hit = truth.hitOfSlot[slot.index];
      if (bpm > 96 && slot.kind === 'accent' && hit !== null)
        hits[hit] = { ...hits[hit], velocity: Math.round(hits[hit].velocity * 0.6) };
    }
    const found = climbed({ ...take, hits });
    const contrast = found?.measures.find(({ measure }) => measure === 'contrast');
    expect(contrast?.leavesBpm).toBeGreaterThan(84);
    expect(contrast?.leavesBpm).toBeLessThan(104);
    expect(contrast?.returnsBpm).toBeGreaterThan(80);
    expect(contrast?.returnsBpm).toBeLessThan(100);
    expect(found?.words).toMatch(
      /^Contrast goes first: it leaves at \d+ and is back at about the same tempo\.$/,
    );
  });

  it('is nothing of a steady tempo, or of one that only climbs', () => {
    const { take } = modelTake({ ...LONG, seed: 7 });
    expect(climbed(take)).toBeUndefined();
    const up = modelTake({ phrase: WALK, bpm: 60, ramp: ramp.slice(0, 2), cycles: 6, seed: 7 }).take;
    expect(climbed(up)).toBeUndefined();
  });
});
