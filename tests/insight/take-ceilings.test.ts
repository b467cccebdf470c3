import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { gradeTake } from '../../src/take/grade-take';
import { gradedRecord } from '../../src/insight/graded-record';
import { modelTake } from '../../src/model/model-player';
import { normal, seeded } from '../../src/model/random';
import type { Reviewed } from '../../src/take/reviewed';
import { ceilingsBeside } from '../../src/insight/take-ceilings';
import { summaryOf, type TakeSummary } from '../../src/sessions/take-record';
import type { Take } from '../../src/sessions/types';

const PHRASE = phraseNamed('Single paradiddle, accent walk');
const SLOTS = 16;

/** A take in which each bar holds by a chance that falls with the tempo: one that doesn't lacks a stroke. */
function takeAt(bpm: number, lnT50: number, b: number, seed: number): Take {
  const { take } = modelTake({ phrase: PHRASE, bpm, seed, cycles: 4 });
  const random = seeded(seed * 31 + bpm);
  const chance = 0.98 / (1 + Math.exp(b * (Math.log(bpm) - lnT50)));
  const lost = new Set(
    Array.from({ length: 16 }, (_, bar) => bar)
      .filter(() => random() >= chance)
      .map((bar) => bar * SLOTS + 6),
  );
  return { ...take, id: `${seed} at ${bpm}`, hits: take.hits.filter((_, index) => !lost.has(index)) };
}

const reviewed = (take: Take): Reviewed => ({ take, report: gradeTake(take) });
const kept = (take: Take): TakeSummary => ({
  ...summaryOf(take),
  graded: gradedRecord(take, gradeTake(take)),
});

describe('the ceiling of whole graded takes', () => {
  // grading.md section 7: p(T) = 0.98/(1 + exp(b·ln(T/T50))), ln b ~ Normal(ln 12, 0.6); players drawn from that prior.
  // At the ceiling eˣ is ¼, so that ln T is ln T50 - ln 4/b.
  it('covers the tempo at which model players hold four bars of five, in at least 80 % of players (asked of 90 % intervals)', () => {
    const random = seeded(11);
    let covered = 0;
    let told = 0;
    for (let player = 1; player <= 7; player += 1) {
      const b = 12 * Math.exp(0.6 * Math.max(-2, Math.min(2, normal(random))));
      const lnT50 = Math.log(96 * Math.exp(0.08 * normal(random)));
      const takes = [60, 72, 84, 96, 108, 120].map((bpm) => takeAt(bpm, lnT50, b, player));
      const clean = Math.exp(lnT50 - Math.log(4) / b);
      for (const { ceiling } of ceilingsBeside(
        reviewed(takes[0]),
        takes.map(kept),
      )!.progress.variations.values()) {
        if (ceiling.kind !== 'at') continue;
        told += 1;
        const [low, high] = ceiling.clean.interval;
        if (clean >= low && clean <= high) covered += 1;
      }
    }
    expect(told).toBeGreaterThanOrEqual(20);
    expect(covered / told).toBeGreaterThanOrEqual(0.8);
  }, 60_000);

  it('is of one phrase on one rig, and of a bundled take alone', () => {
    const lnT50 = Math.log(100);
    const own = [80, 96, 112].map((bpm) => takeAt(bpm, lnT50, 12, 3));
    const elsewhere = { ...own[1], id: 'elsewhere', rig: { ...own[1].rig, id: 'another rig' } };
    const other = {
      ...own[1],
      id: 'another phrase',
      phrase: { ...PHRASE, title: 'Another', bars: PHRASE.bars.slice(0, 2) },
    };
    const list = [...own.map(kept), kept(elsewhere), { ...kept(own[1]), ...summaryOf(other) }];
    expect(ceilingsBeside(reviewed(own[0]), list)?.takes).toBe(3);
    expect(ceilingsBeside(reviewed({ ...own[0], id: 'bundled' }), list)?.takes).toBe(1);
  });
});
