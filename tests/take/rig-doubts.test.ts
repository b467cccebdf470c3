import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { gridOf } from '../../src/exercises/grid';
import { strengthWords } from '../../src/grading/words';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';
import { rigDoubts } from '../../src/take/rig-doubts';
import type { Rig } from '../../src/sessions/types';

const phrase = phraseNamed('Single paradiddle, accent walk');
const { take } = modelTake({ phrase, bpm: 84, seed: 5, faults: [{ kind: 'balance', hand: 'R', db: 2 }] });
const rigWith = (more: Partial<Rig['surfaces'][0]>, rig: Partial<Rig> = {}): Rig => ({
  ...take.rig,
  ...rig,
  surfaces: [{ ...take.rig.surfaces[0], ...more }],
});
const graded = (rig: Rig) => gradeTake({ ...take, rig });

describe('what a rig cannot tell', () => {
  it('a rig that has learned nothing changes nothing', () => {
    expect(rigDoubts(take.rig, gridOf(phrase, take.tempo, 0), take.hits)).toEqual({});
  });

  it('what trims leave makes a balance less sure, and at the limit of 2.5 dB it is not told', () => {
    const spots = (leftDb: number) => rigWith({ spots: { R: 0, L: 0, leftDb } });
    const [plain, some, much] = [take.rig, spots(1), spots(2.5)].map(
      (rig) => graded(rig).measures.balanceSoft!,
    );
    expect(some.value).toBe(plain.value);
    expect(some.interval![1] - some.interval![0]).toBeGreaterThan(plain.interval![1] - plain.interval![0]);
    expect(some.interval![1] - some.value!).toBeGreaterThanOrEqual(1);
    expect(much).toMatchObject({ value: null, band: 'not measured' });
    expect(strengthWords(graded(spots(1)))).toContain('A balance finer than 1.0 dB is not told by this rig.');
  });

  // at 84 bpm a sixteenth lasts 179 ms: the hand's next stroke in a single paradiddle is as soon as that, RR
  it('a tap right after an accent is pad and hand in one where the phrase is as fast', () => {
    const rig = (withinMs: number) => rigWith({ afterAccent: { db: 3, withinMs, n: 10 } });
    expect(graded(rig(170)).afterAccent).toBeUndefined();
    expect(graded(rig(180)).afterAccent).toEqual([{ surface: 'Pad', withinMs: 180, db: 3 }]);
    expect(strengthWords(graded(rig(180)))).toContain(
      'At this tempo leak after is pad and hand in one: on Pad a tap within 180 ms after an accent reads 3.0 dB louder than a low stroke.',
    );
  });

  it('clumped time stamps: levels are graded, timing is not', () => {
    const report = graded({ ...take.rig, clumpedPorts: [take.hits[0].port] });
    const { scatter, lag, shape, seam, softness, contrast } = report.measures;
    for (const figure of [scatter, lag, shape, seam!.ms]) {
      expect(figure).toMatchObject({ value: null, band: 'not measured' });
    }
    expect([softness!.band, contrast!.band]).toEqual(['holds', 'holds']);
    expect(report.bars.flatMap(({ broke }) => broke)).not.toContain('scatter');
    expect(strengthWords(report)).toContain(
      'Time stamps came in clumps, as over wireless MIDI: timing is not graded.',
    );
    expect(report.sentence).not.toMatch(/scatter|\bms\b/);
  });

  it('not where another port is the wireless one', () => {
    expect(graded({ ...take.rig, clumpedPorts: ['Other'] }).clumped).toBeUndefined();
  });
});

// Below the closest pair things are not measured
describe('a pad that merges close strokes', () => {
  const flams = phraseNamed('flam accent');
  const { take: flammed } = modelTake({ phrase: flams, bpm: 80, seed: 3, cycles: 4 });
  const on = (closestPairMs: number) => ({
    ...flammed.rig,
    surfaces: flammed.rig.surfaces.map((surface) => ({ ...surface, closestPairMs })),
  });
  /** The pad reports the first of two strokes nearer than 60 ms. */
  const merged = flammed.hits.filter(
    ({ atMs }, index, hits) => index === 0 || atMs - hits[index - 1].atMs >= 60,
  );

  it('tells no flams where most of them arrive as one stroke, and says why', () => {
    const report = gradeTake({ ...flammed, rig: on(60), hits: merged });
    expect(report.measures.graceEvenness).toMatchObject({ value: null, band: 'not measured' });
    expect(report.measures.flamGap).toMatchObject({ value: null, band: 'not measured' });
    expect(strengthWords(report)).toContain(
      'strokes closer than 60 ms may arrive as one: tighter flams and doubles are not measured.',
    );
  });

  it('tells them where they arrive', () => {
    const report = gradeTake({ ...flammed, rig: on(12) });
    expect(report.measures.flamGap?.value).toBeGreaterThan(12);
  });

  it('a second stroke that the pad cannot tell is no miss', () => {
    // At 84 bpm a sixteenth lasts 178.6 ms: a pad that needs 180 ms gives every other stroke, here in every other bar.
    const every = take.hits.filter((_, index) => index % 32 < 16 || index % 2 === 0);
    const { counts } = gradeTake({ ...take, rig: rigWith({ closestPairMs: 180 }), hits: every });
    expect(counts.missed).toBe(0);
    expect(counts.notMeasured).toBeGreaterThan(50);
    expect(
      gradeTake({ ...take, rig: rigWith({ closestPairMs: 170 }), hits: every }).counts.missed,
    ).toBeGreaterThan(50);
  });

  it('every other stroke is half the tempo where the pad could tell them, and no rate where it could not', () => {
    const half = take.hits.filter((_, index) => index % 2 === 0);
    const course = (closestPairMs: number) =>
      gradeTake({ ...take, rig: rigWith({ closestPairMs }), hits: half }).course;
    expect(course(170)).toEqual([{ kind: 'rate', rate: 0.5 }]);
    expect(course(180)).toEqual([]);
  });
});
