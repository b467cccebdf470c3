import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { gradeTake } from '../../src/practice/grade-take';
import { liveSteps } from '../../src/practice/live-step';
import { modelTake, type ModelPlayer } from '../../src/practice/model-player';
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
      expect(report.measures.flamGap?.n).toEqual([truth.graceHits.length]);
    },
  );

  it('recovers the gap, the evenness and the softness that were planted', () => {
    const { measures } = graded('flam accent').report;
    expect(Math.abs((measures.flamGap?.value ?? NaN) - 30)).toBeLessThan(1.5);
    expect(Math.abs((measures.flamEvenness?.value ?? NaN) - 3)).toBeLessThan(1);
    expect(Math.abs((measures.graceSoftness?.value ?? NaN) + 20)).toBeLessThan(1);
    for (const key of ['flamGap', 'flamEvenness', 'graceSoftness'] as const)
      expect(measures[key]?.band).toBe('holds');
  });

  it('says that flams are uneven before it says that they are wide', () => {
    const uneven = graded('flam accent', {
      faults: [
        { kind: 'flam-uneven', ms: 15 },
        { kind: 'flam-gap', ms: 50 },
      ],
    }).report;
    expect(uneven.weakest?.measure).toBe('flamEvenness');
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
