import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../../src/exercises/phrase';
import { giveawayWords, identificationWords } from '../../../src/grading/apart/words';
import { giveawayOf, type Giveaway } from '../../../src/grading/apart/giveaway';
import { identificationOf, type Identification } from '../../../src/grading/apart/identification';
import { gradeTake } from '../../../src/take/grade-take';
import { modelTake, type ModelPlayer } from '../../../src/model/model-player';
import type { Take } from '../../../src/sessions/types';

const ROTATIONS = phraseNamed('Single paradiddle, rotations');

/** Rotations, with one place of one variation so much louder or later. */
function rotations(
  seed: number,
  plant: { db?: number; ms?: number } = {},
  player: Partial<ModelPlayer> = {},
): Take {
  const { take, truth, grid } = modelTake({ phrase: ROTATIONS, bpm: 84, seed, cycles: 8, ...player });
  const hits = take.hits.map((hit) => ({ ...hit }));
  for (const slot of grid.slots) {
    const hit = truth.hitOfSlot[slot.index];
    if (slot.variation !== 'RRLR LLRL' || slot.place !== 2 || hit === null) continue;
    const velocity = hits[hit].velocity * 10 ** ((plant.db ?? 0) / 40);
    hits[hit] = {
      ...hits[hit],
      velocity: Math.min(127, Math.round(velocity)),
      atMs: hits[hit].atMs + (plant.ms ?? 0),
    };
  }
  return { ...take, hits };
}

const told = (take: Take, shuffles?: number): Giveaway => {
  const found = giveawayOf(gradeTake(take), take.phrase, take.tempo, shuffles);
  if (found.kind !== 'told') throw new Error(found.because);
  return found;
};
const rated = (take: Take, shuffles?: number): Identification => {
  const found = identificationOf(gradeTake(take), take.phrase, take.tempo, shuffles);
  if (found.kind !== 'told') throw new Error(found.because);
  return found;
};

describe('the giveaway', () => {
  it('is the stroke that is 2.4 dB loud, with its size and its chance', () => {
    const found = told(rotations(31, { db: 2.4 }));
    expect(found).toMatchObject({
      variation: 'RRLR LLRL',
      place: 2,
      slot: 2,
      hand: 'L',
      dimension: 'level',
      unit: 'dB',
      gives: true,
      couldMiss: false,
      n: [8, 24],
    });
    expect(found.difference.value).toBeGreaterThan(1.4);
    expect(found.difference.interval[0]).toBeLessThan(2.4);
    expect(found.difference.interval[1]).toBeGreaterThan(2.4);
    expect(found.p).toBeCloseTo(1 / 501, 12);
    expect(giveawayWords(found)).toMatch(
      /^What gives RRLR LLRL away is its third stroke, 2\.\d dB louder than there in the others\.$/,
    );
  });

  it('is the stroke that comes 15 ms late, in time', () => {
    const found = told(rotations(32, { ms: 15 }));
    expect(found).toMatchObject({
      variation: 'RRLR LLRL',
      place: 2,
      dimension: 'time',
      unit: 'ms',
      gives: true,
      audibleFrom: 6,
    });
    expect(giveawayWords(found)).toMatch(/third stroke, 1\d ms later/);
  });

  // grading.md section 6: nearly always; asked by the issue: at least 95 of 100
  it(
    'is found and located for a 2.4 dB place in 8 cycles, in 19 of 20 takes at least',
    { timeout: 120_000 },
    () => {
      const seeds = Array.from({ length: 20 }, (_, index) => 9000 + index);
      const located = seeds.filter((seed) => {
        const { gives, variation, place, dimension } = told(rotations(seed, { db: 2.4 }), 99);
        return gives && variation === 'RRLR LLRL' && place === 2 && dimension === 'level';
      });
      expect(located.length).toBeGreaterThanOrEqual(19);
    },
  );

  // over 200 takes: `npm run bench apart`. Of 40 at 5 % more than 6 come about in 1 of 70 such trials (binomial).
  it('and the rate seldom give a false alarm in takes without a difference', { timeout: 120_000 }, () => {
    const alarms = { giveaway: 0, rate: 0 };
    for (let seed = 5000; seed < 5040; seed++) {
      const take = rotations(seed);
      if (told(take, 99).p <= 0.05) alarms.giveaway++;
      if (rated(take, 39).p <= 0.05) alarms.rate++;
    }
    expect(alarms.giveaway).toBeLessThanOrEqual(6);
    expect(alarms.rate).toBeLessThanOrEqual(6);
  });

  it('is the same each time, and plain data', () => {
    const take = rotations(33);
    expect(told(take)).toEqual(told(take));
    expect(structuredClone(told(take))).toEqual(told(take));
  });

  it('under 8 cycles adds that it could miss something; under 4 says nothing', () => {
    expect(told(rotations(34, {}, { cycles: 5 })).couldMiss).toBe(true);
    expect(giveawayWords(told(rotations(34, {}, { cycles: 5 })))).toMatch(
      /From five cycles only: something may be missed\.$/,
    );
    const short = rotations(34, {}, { cycles: 3 });
    const found = giveawayOf(gradeTake(short), short.phrase, short.tempo);
    expect(found).toEqual({ kind: 'not told', because: 'too few cycles' });
    expect(giveawayWords(found)).toBe(
      'Play four cycles at least; then it can be said what gives a variation away.',
    );
  });

  it('is not asked of an accent walk: its variations are not meant to sound alike', () => {
    const take = modelTake({ phrase: phraseNamed('Single paradiddle, accent walk'), bpm: 84, seed: 1 }).take;
    expect(giveawayOf(gradeTake(take), take.phrase, take.tempo)).toEqual({
      kind: 'not told',
      because: 'none alike',
    });
  });

  it('is asked of both leads of an accent walk, each accent by itself', () => {
    const phrase = phraseNamed('Single paradiddle, accent walk, both leads');
    const take = modelTake({
      phrase,
      bpm: 84,
      seed: 1,
      cycles: 8,
      faults: [{ kind: 'accents', db: -4, variation: 'accent on 3, left lead' }],
    }).take;
    const found = told(take);
    expect([found.variation, ...found.others].sort()).toEqual(['accent on 3', 'accent on 3, left lead']);
    expect(found).toMatchObject({ dimension: 'level', gives: true });
  });
});

describe('the identification rate', () => {
  it('of a place 6 dB loud is well over chance', () => {
    const found = rated(rotations(41, { db: 6 }));
    expect(found.chance).toBe(0.25);
    expect(found.rate).toBeGreaterThan(0.35);
    expect(found.p).toBeLessThan(0.05);
    expect(found.guesses.flat().reduce((sum, n) => sum + n, 0)).toBe(32);
    expect(identificationWords(found)).toMatch(/guessing makes 25 %, so that is more than chance makes/);
  });
});
