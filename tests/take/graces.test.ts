import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { gradeTake } from '../../src/take/grade-take';
import { liveSteps } from '../../src/take/live/step';
import { modelTake, type ModelPlayer } from '../../src/model/model-player';
import { settingsOf } from '../../src/settings';

const graded = (phrase: string, player: Partial<ModelPlayer> = {}) => {
  const made = modelTake({ phrase: phraseNamed(phrase), bpm: 90, seed: 3, cycles: 24, ...player });
  return { ...made, report: gradeTake(made.take) };
};

describe('flams and drags (the 40 international drum rudiments; widths and evenness: common practice, no source)', () => {
  it.each(['flam', 'flam accent', 'flam tap', 'flamacue', 'swiss army triplet', 'drag', 'flam paradiddle'])(
    '%s: every stroke finds its slot, every grace its stroke',
    (name) => {
      const { report, truth } = graded(name);
      expect(report.fits).toBe(true);
      expect(report.counts.matched).toBe(report.counts.slots);
      expect(report.counts.extra).toBe(0);
      expect((report.measures.flamGap ?? report.measures.dragGap)?.n).toEqual([truth.graceHits.length]);
    },
  );

  it('recovers the gap, the evenness and the softness that were planted', () => {
    const { measures } = graded('flam accent').report;
    expect(Math.abs((measures.flamGap?.value ?? NaN) - 30)).toBeLessThan(1.5);
    expect(Math.abs((measures.graceEvenness?.value ?? NaN) - 3)).toBeLessThan(1);
    expect(Math.abs((measures.graceSoftness?.value ?? NaN) + 20)).toBeLessThan(1);
    for (const key of ['flamGap', 'graceEvenness', 'graceSoftness'] as const)
      expect(measures[key]?.band).toBe('holds');
  });

  it('says that flams are uneven before it says that they are wide', () => {
    const uneven = graded('flam accent', {
      faults: [
        { kind: 'flam-uneven', ms: 15 },
        { kind: 'flam-gap', ms: 50 },
      ],
    }).report;
    expect(uneven.weakest?.measure).toBe('graceEvenness');
    expect(uneven.sentence).toMatch(/grace notes are uneven: their gaps vary by 1\d ms/);
    const wide = graded('flam accent', { faults: [{ kind: 'flam-gap', ms: 70 }] }).report;
    expect(wide.weakest?.measure).toBe('flamGap');
    expect(wide.sentence).toMatch(/so that they stand apart/);
  });

  it('says that graces are loud', () => {
    const { report } = graded('flam accent', { faults: [{ kind: 'graces', db: 14 }] });
    expect(report.weakest?.measure).toBe('graceSoftness');
    expect(Math.abs((report.weakest?.value ?? NaN) + 6)).toBeLessThan(1);
  });

  it('tells them at a tempo too: flam taps at 140', () => {
    const { report } = graded('flam tap', { bpm: 140 });
    expect(report.counts.matched).toBe(report.counts.slots);
    expect(report.counts.extra).toBe(0);
  });

  it('has graces on a surface of their own hand', () => {
    const { report } = graded('flam accent', { surfaces: 2 });
    expect(report.counts.wrongHand).toBe(0);
    expect(report.measures.flamGap?.band).toBe('holds');
  });

  it('counts a grace that was left out as no miss', () => {
    const { take, truth } = graded('flam');
    const without = {
      ...take,
      hits: take.hits.filter((_, index) => !truth.graceHits.slice(0, 10).includes(index)),
    };
    const report = gradeTake(without);
    expect(report.counts.missed).toBe(0);
    expect(report.measures.flamGap?.n).toEqual([truth.graceHits.length - 10]);
    expect(report.counts.gracesMissed).toBe(10);
    expect(gradeTake(take).counts.gracesMissed).toBe(0);
  });

  it('says when one hand’s flams are wider than the other’s, each of them even', () => {
    const { take, grid, truth } = graded('flam');
    const graceOf = new Map(truth.graceHits.map((hit) => [hit, take.hits[hit].atMs]));
    const rightMains = grid.slots.flatMap(({ hand, index }) => {
      const hit = truth.hitOfSlot[index];
      return hand === 'R' && hit !== null ? [hit] : [];
    });
    const hits = take.hits.map((hit, index) =>
      graceOf.has(index) && rightMains.includes(index + 1) ? { ...hit, atMs: hit.atMs - 14 } : hit,
    );
    const { graceEvenness, graceHands } = gradeTake({ ...take, hits }).measures;
    expect(graceEvenness?.band).toBe('holds');
    expect(Math.abs((graceHands?.value ?? NaN) - 14)).toBeLessThan(1.5);
    expect(graceHands?.band).toBe('close');
    expect(gradeTake({ ...take, hits }).sentence).toMatch(/before right strokes come 1\d ms farther ahead/);
  });

  it('takes no stroke for a grace where none is due: an extra shows while playing', () => {
    const { take, grid, truth } = modelTake({ phrase: phraseNamed('flam tap'), bpm: 90, seed: 3, cycles: 6 });
    const slot = grid.slots.find(({ graces, index }) => graces.length === 0 && index > 20);
    const before = take.hits[truth.hitOfSlot[slot?.index ?? 0] ?? 0];
    const hits = [...take.hits, { ...before, atMs: before.atMs - 50 }].sort((a, b) => a.atMs - b.atMs);
    const { start, step } = liveSteps(grid, take.rig, settingsOf('working'));
    let run = hits.reduce((state, hit) => step(state, { kind: 'hit', hit }), start);
    run = step(run, { kind: 'tick', atMs: Infinity });
    expect(run.shown.extras.length).toBe(1);
    expect(gradeTake({ ...take, hits }).counts.extra).toBe(1);
  });

  it('shows no grace as an extra while playing, once its stroke has come', () => {
    const { take, grid } = modelTake({ phrase: phraseNamed('flam accent'), bpm: 90, seed: 3, cycles: 6 });
    const { start, step } = liveSteps(grid, take.rig, settingsOf('working'));
    let run = take.hits.reduce((state, hit) => step(state, { kind: 'hit', hit }), start);
    run = step(run, { kind: 'tick', atMs: Infinity });
    expect(run.shown.extras).toEqual([]);
    expect(run.shown.passes.every((passes) => passes.every((pass) => pass.status === 'matched'))).toBe(true);
  });
});
