import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { ceilingOf, ceilingsOf, heldBarsOf, type Ceiling, type HeldBars } from '../../src/insight/ceiling';
import { ceilingWords } from '../../src/insight/ceiling-words';
import { heldLikelihood, tempoWhere } from '../../src/grading/numbers/held-curve';
import { gradeTake } from '../../src/take/grade-take';
import { modelTake } from '../../src/model/model-player';
import { normal, seeded } from '../../src/model/random';
import { reference } from '../reference/read';

const row = (bpm: number, held: number, bars: number, ageDays = 0): HeldBars => ({
  variation: 'accent on 4',
  bpm,
  bars,
  held,
  ageDays,
});
const at = (ceiling: Ceiling): number => {
  if (ceiling.kind !== 'at') throw new Error(ceiling.kind);
  return ceiling.clean.value;
};

interface Case {
  readonly bpm: readonly number[];
  readonly bars: readonly number[];
  readonly held: readonly number[];
  readonly lnT50: number;
  readonly b: number;
  readonly logLik: number;
}
const { cases } = reference('ceiling') as { readonly cases: readonly Case[] };

describe('the curve of bars held', () => {
  // R's glm in ln T, tests/reference/ceiling.R
  it.each(cases)('with 0.98 made 1 and no prior has its highest point where R’s glm has it: b $b', (of) => {
    const counts = of.bpm.map((bpm, i) => ({ bpm, held: of.held[i], notHeld: of.bars[i] - of.held[i] }));
    expect(heldLikelihood(counts, of.lnT50, of.b, 1)).toBeCloseTo(of.logLik, 9);
    let [lnT50, b] = [Math.log(90), 8];
    for (let step = 0.5; step > 1e-9; step *= 0.7) {
      for (let turn = 0; turn < 40; turn++) {
        const around = [-1, 0, 1].flatMap((i) =>
          [-1, 0, 1].map((j) => [lnT50 + i * step * 0.2, b + j * step * 10] as const),
        );
        const [best] = around.sort(
          (p, q) => heldLikelihood(counts, q[0], q[1], 1) - heldLikelihood(counts, p[0], p[1], 1),
        );
        if (best[0] === lnT50 && best[1] === b) break;
        [lnT50, b] = best;
      }
    }
    expect(lnT50).toBeCloseTo(of.lnT50, 5);
    expect(b).toBeCloseTo(of.b, 3);
  });
});

describe('a ceiling', () => {
  it('lies between tempos that hold and tempos that break', () => {
    const ceiling = ceilingOf([row(84, 16, 16), row(92, 15, 16), row(100, 12, 16), row(108, 4, 16)]);
    expect(at(ceiling)).toBeGreaterThan(94);
    expect(at(ceiling)).toBeLessThan(101);
    expect(ceilingWords(ceiling)).toMatch(/^clean at 9\d, breaks at 10[3-6]$/);
  });

  it('is told from six bars on', () => {
    expect(ceilingOf([row(84, 2, 5)])).toEqual({ kind: 'too few bars', bars: 5 });
    expect(ceilingWords(ceilingOf([row(84, 2, 5)]))).toBe('five bars: six are needed to tell a ceiling');
    expect(ceilingOf([row(84, 3, 6)]).kind).not.toBe('too few bars');
  });

  it('over or under all that was tried has no number', () => {
    expect(ceilingOf([row(72, 8, 8), row(84, 8, 8)])).toEqual({ kind: 'above', bars: 16, bpm: 84 });
    expect(ceilingOf([row(72, 1, 8), row(84, 0, 8)])).toEqual({ kind: 'below', bars: 16, bpm: 72 });
    // three bars at 120 are no end to measure from
    expect(ceilingOf([row(84, 8, 8), row(120, 3, 3)])).toMatchObject({ kind: 'above', bpm: 84 });
  });

  it('forgets: three weeks ago counts half, so a better week weighs more', () => {
    const now = [row(84, 8, 8), row(96, 8, 8), row(108, 3, 8)];
    const newer = ceilingOf([...now, row(96, 4, 8, 42)]);
    const same = ceilingOf([...now, row(96, 4, 8)]);
    expect(at(newer)).toBeGreaterThan(at(same) + 1);
    // a bar of age 21 days is half a bar: twice as many of them say the same
    const halves = ceilingOf([row(84, 16, 16, 21), row(96, 12, 16, 21), row(108, 4, 16, 21)]);
    const wholes = ceilingOf([row(84, 8, 8), row(96, 6, 8), row(108, 2, 8)]);
    expect(at(halves)).toBeCloseTo(at(wholes), 9);
  });

  it('covers the true tempo in 90 of 100 learners whose slope is as the prior has it', () => {
    const random = seeded(77);
    let [covered, of] = [0, 0];
    for (let learner = 0; learner < 200; learner++) {
      const lnT50 = Math.log(70 + 70 * random());
      const b = 12 * Math.exp(0.6 * normal(random));
      const truth = tempoWhere(0.8, lnT50, b);
      const rows = [0.75, 0.85, 0.95, 1.05, 1.15].map((share) => {
        const bpm = Math.round(truth * share);
        const p = 0.98 / (1 + Math.exp(b * (Math.log(bpm) - lnT50)));
        const held = Array.from({ length: 10 }, () => random()).filter((u) => u < p).length;
        return row(bpm, held, 10);
      });
      const ceiling = ceilingOf(rows);
      if (ceiling.kind !== 'at') continue;
      of++;
      const [low, high] = ceiling.clean.interval;
      if (low <= truth && truth <= high) covered++;
    }
    expect(of).toBeGreaterThan(150);
    // binomial: 0.9 ± 0.064 holds 99.7 % of such trials of 200
    expect(covered / of).toBeGreaterThan(0.836);
    expect(covered / of).toBeLessThan(0.964);
  });

  it('is one a variation and one for the phrase', () => {
    const { phrase, variations } = ceilingsOf([
      row(84, 8, 8),
      row(100, 3, 8),
      { ...row(100, 8, 8), variation: 'accent on 1' },
      { ...row(84, 8, 8), variation: 'accent on 1' },
    ]);
    expect([...variations.keys()]).toEqual(['accent on 4', 'accent on 1']);
    expect(variations.get('accent on 1')).toMatchObject({ kind: 'above', bpm: 100 });
    expect(variations.get('accent on 4')?.kind).toBe('at');
    expect(phrase.kind).toBe('at');
  });

  it('is made from a take’s bars, a ramp’s by their own tempo', () => {
    const phrase = phraseNamed('Single paradiddle, accent walk');
    const steady = modelTake({ phrase, bpm: 84, seed: 4, cycles: 3 }).take;
    const rows = heldBarsOf(gradeTake(steady), steady.phrase, steady.tempo, 3);
    expect(rows).toHaveLength(4);
    expect(rows[0]).toMatchObject({ variation: 'accent on 1', bpm: 84, bars: 3, ageDays: 3 });
    const ramp = modelTake({
      phrase,
      bpm: 60,
      ramp: [
        { bar: 0, bpm: 60 },
        { bar: 16, bpm: 120 },
      ],
      seed: 4,
      cycles: 4,
    }).take;
    const tempos = heldBarsOf(gradeTake(ramp), ramp.phrase, ramp.tempo).map(({ bpm }) => bpm);
    expect(Math.min(...tempos)).toBeGreaterThanOrEqual(60);
    expect(Math.max(...tempos)).toBeGreaterThan(105);
  });
});
