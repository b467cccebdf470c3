import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { mirror } from '../../src/exercises/variations';
import { parseSticking, stickingText } from '../../src/exercises/sticking';
import { measureOrder, type Figure, type Measures, type Report } from '../../src/grading/types';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake, type ModelPlayer } from '../../src/model/model-player';
import type { Take } from '../../src/sessions/types';
import { otherHand, type Hand } from '../../src/stroke';

const WALK = 'Single paradiddle, accent walk';
const take = (player: Partial<ModelPlayer> & { phraseName?: string } = {}): Take =>
  modelTake({ phrase: phraseNamed(player.phraseName ?? WALK), bpm: 84, seed: 5, ...player }).take;

const moved = (one: Take, byMs: number): Take => ({
  ...one,
  downbeatMs: (one.downbeatMs ?? 0) + byMs,
  hits: one.hits.map((hit) => ({ ...hit, atMs: hit.atMs + byMs })),
});

/** Measures that have a value, one figure each; the seam as two. */
function figures(measures: Measures): [string, Figure][] {
  return Object.entries(measures).flatMap(([key, figure]): [string, Figure][] =>
    'ms' in figure
      ? [
          [`${key} ms`, figure.ms],
          [`${key} dB`, figure.dB],
        ]
      : [[key, figure]],
  );
}

function closeTo(a: Report, b: Report): void {
  expect(b.counts).toEqual(a.counts);
  const left = figures(a.measures);
  const right = figures(b.measures);
  expect(right.map(([key]) => key)).toEqual(left.map(([key]) => key));
  left.forEach(([key, figure], index) => {
    expect(right[index][1].band, key).toBe(figure.band);
    if (figure.value !== null) expect(right[index][1].value, key).toBeCloseTo(figure.value, 6);
  });
}

describe('laws of the whole grading', () => {
  it('shifting strokes and grid together changes nothing', () => {
    const one = take({ faults: [{ kind: 'leak-before', hand: 'L', db: 5 }] });
    const report = gradeTake(one);
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e7, noNaN: true }), (byMs) => {
        closeTo(report, gradeTake(moved(one, byMs)));
      }),
      { numRuns: 12 },
    );
  });

  it('mirroring R and L swaps the hands’ rows and flips balance and lag', () => {
    const one = take({
      surfaces: 2,
      faults: [
        { kind: 'late', hand: 'L', ms: 14 },
        { kind: 'balance', hand: 'R', db: 3 },
      ],
    });
    const mirrored: Take = {
      ...one,
      phrase: {
        ...one.phrase,
        bars: one.phrase.bars.map((bar) => ({
          ...bar,
          sticking: stickingText(mirror(parseSticking(bar.sticking)[0]), [4]),
        })),
      },
      rig: {
        ...one.rig,
        surfaces: one.rig.surfaces.map((surface) => ({
          ...surface,
          hand: surface.hand === null ? null : otherHand(surface.hand),
        })),
      },
    };
    const a = gradeTake(one);
    const b = gradeTake(mirrored);
    expect(b.counts).toEqual(a.counts);
    const otherLetter = (measures: Measures): unknown =>
      JSON.parse(
        JSON.stringify(measures).replace(/"hand":"(R|L)"/g, (_, hand: Hand) => `"hand":"${otherHand(hand)}"`),
      );
    expect(b.perHand.L.measures).toEqual(otherLetter(a.perHand.R.measures));
    expect(b.perHand.R.measures).toEqual(otherLetter(a.perHand.L.measures));
    expect(b.strokeTypes.L).toEqual(a.strokeTypes.R);
    for (const key of ['balanceSoft', 'balanceAccent', 'lag'] as const) {
      expect(b.measures[key]?.value, key).toBeCloseTo(-(a.measures[key]?.value ?? NaN), 9);
    }
  });

  it('swapping early and late flips only signs', () => {
    const one = take({ offsetMs: 0, faults: [{ kind: 'late', hand: 'L', ms: 12 }] });
    const { grid } = modelTake({ phrase: one.phrase, bpm: 84, seed: 5 });
    const a = gradeTake(one);
    const swapped: Take = {
      ...one,
      hits: one.hits.map((hit, index) => ({ ...hit, atMs: 2 * grid.slots[index].atMs - hit.atMs })),
    };
    const b = gradeTake(swapped);
    expect(b.counts).toEqual(a.counts);
    for (const key of ['lag', 'asynchrony', 'doubleGap'] as const) {
      expect(b.measures[key]?.value, key).toBeCloseTo(-(a.measures[key]?.value ?? NaN), 6);
    }
    for (const key of ['scatter', 'shape', 'contrast', 'softness', 'leakBefore'] as const) {
      expect(b.measures[key]?.value, key).toBeCloseTo(a.measures[key]?.value ?? NaN, 6);
    }
  });

  it('a perfect take holds in every measure', () => {
    for (const phraseName of [
      WALK,
      'Single paradiddle, rotations',
      'Single paradiddle, accent walk, both leads',
    ]) {
      const report = gradeTake(
        take({ phraseName, timingSdMs: 0, levelSdDb: 0, accentDb: -4, tapDb: -24, offsetMs: 0 }),
      );
      expect(report.counts.matched).toBe(report.counts.slots);
      for (const { measures } of [report, ...report.variations]) {
        for (const [key, figure] of figures(measures)) {
          if (figure.band === undefined || figure.value === null) continue;
          expect(figure.band, key).toBe('holds');
        }
      }
      expect(report.bars.every((bar) => bar.clean)).toBe(true);
    }
  });

  it('gives the same report for the same take', () => {
    const one = take({ missed: 0.02, added: 0.02 });
    expect(JSON.stringify(gradeTake(one))).toBe(JSON.stringify(gradeTake(structuredClone(one))));
  });
});

describe('what was planted is what is said', () => {
  it.each([
    ['leakBefore', { faults: [{ kind: 'leak-before', hand: 'L', db: 7, variation: 'accent on 4' }] }, 'L', 7],
    ['leakAfter', { faults: [{ kind: 'leak-after', hand: 'R', db: 7, variation: 'accent on 3' }] }, 'R', 7],
    ['spill', { faults: [{ kind: 'spill', hand: 'R', db: 6 }] }, 'R', 6],
    ['fade', { faults: [{ kind: 'fade', db: -6 }] }, undefined, -6],
    [
      'lag',
      { phraseName: 'Single paradiddle, rotations', faults: [{ kind: 'late', hand: 'L', ms: 22 }] },
      undefined,
      -22,
    ],
    ['contrast', { faults: [{ kind: 'accents', db: -9, variation: 'accent on 2' }] }, undefined, 7],
  ] as const)('%s', (measure, player, hand, value) => {
    const { weakest } = gradeTake(take(player as Partial<ModelPlayer>));
    expect(weakest?.measure).toBe(measure);
    if (hand !== undefined) expect(weakest?.hand).toBe(hand);
    // Within about three standard errors of what was planted.
    expect(Math.abs((weakest?.value ?? NaN) - value)).toBeLessThan(measure === 'lag' ? 6 : 2);
  });

  it('every judged measure has its place in the order of teaching', () => {
    expect(new Set(measureOrder).size).toBe(measureOrder.length);
  });
});

describe('takes that are no takes', () => {
  it('says so where nothing was struck in the bars', () => {
    const one = take({ cycles: 1 });
    const before = { ...one, hits: one.hits.slice(0, 4).map((hit) => ({ ...hit, atMs: hit.atMs - 3900 })) };
    expect(() => gradeTake(before)).toThrow('hits must have at least 2 strokes from the downbeat on, got 0');
  });

  it('counts hits on notes no surface owns, and never drops them in silence', () => {
    const one = take({ cycles: 2 });
    const hits = one.hits.map((hit, index) => (index % 10 === 0 ? { ...hit, note: 51 } : hit));
    expect(gradeTake({ ...one, hits }).counts.unmapped).toBe(13);
  });
});

describe('false notes in the counts', () => {
  // Head and rim of one drum: the pad owns both notes. By grading.md section 2 neither is a stroke.
  const one = take({ cycles: 2 });
  const owning: Take = {
    ...one,
    rig: { ...one.rig, surfaces: one.rig.surfaces.map((surface) => ({ ...surface, notes: [38, 40] })) },
  };
  const accents = owning.hits.filter(({ velocity }) => velocity > 80);
  const beside = (note: number, byMs: number, velocity: number, of: number): Take => ({
    ...owning,
    hits: [
      ...owning.hits,
      ...accents
        .slice(0, of)
        .map((hit) => ({ ...hit, atMs: hit.atMs + byMs, note: note === 0 ? hit.note : note, velocity })),
    ].sort((a, b) => a.atMs - b.atMs),
  });
  const counts = (of: Take) => gradeTake(of).counts;

  it('softer notes of the rim with a stroke on the head are forerunners', () => {
    const clean = counts(owning);
    expect(clean.forerunners).toBe(0);
    expect(counts(beside(40, 4, 50, 5))).toEqual({ ...clean, forerunners: 5 });
    expect(counts(beside(40, -4, 50, 5))).toEqual({ ...clean, forerunners: 5 });
  });

  it('so are soft notes of the head itself up to 8 ms before it, and both add up', () => {
    const before = beside(0, -7, 30, 4);
    expect(counts(before).forerunners).toBe(4);
    const both = { ...before, hits: [...before.hits] };
    const rim = { ...accents[7], atMs: accents[7].atMs + 3, note: 40, velocity: 40 };
    both.hits.splice(
      both.hits.findIndex(({ atMs }) => atMs > rim.atMs),
      0,
      rim,
    );
    expect(counts(both)).toMatchObject({ forerunners: 5, extra: 0, matched: 128 });
  });
});
