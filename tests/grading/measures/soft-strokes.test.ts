import { describe, expect, it } from 'vitest';
import type { Slot } from '../../../src/exercises/types';
import { reportOf } from '../../../src/grading/report';
import type { Report } from '../../../src/grading/types';
import { accentWalk, played, rotations, wobble, type Playing } from '../played';

/** The accent walk at -22 dB with a wobble of ±1 dB, and `more` dB on some strokes. */
function walked(more: (slot: Slot) => number, playing: Partial<Playing> = {}): Report {
  return reportOf(
    played({
      bars: accentWalk,
      cycles: 8,
      strike: (slot) => ({ level: (slot.kind === 'accent' ? -4 : -22) + wobble(slot) + more(slot) }),
      ...playing,
    }),
  );
}
const variation = (report: Report, name: string): Report['variations'][number] =>
  report.variations.find((one) => one.name === name) ?? expect.fail(`no ${name}`);

// What each term is to a drummer; limits common practice, no source.
describe('leak before', () => {
  it('finds the left tap before its accent in one variation, there and nowhere else', () => {
    const report = walked((s) =>
      s.variation === 'accent on 4' && s.hand === 'L' && s.type === 'up' ? 6 : 0,
    );
    const [leaking, ...others] = ['accent on 4', 'accent on 1', 'accent on 2', 'accent on 3'].map(
      (name) => variation(report, name).measures.leakBefore,
    );
    expect(leaking?.hand).toBe('L');
    expect(leaking?.value).toBeGreaterThan(5);
    expect(leaking?.value).toBeLessThan(6.5);
    for (const other of others) expect(Math.abs(other?.value ?? NaN)).toBeLessThan(1);
    expect(report.weakest).toMatchObject({ variation: 'accent on 4', measure: 'leakBefore', hand: 'L' });
  });

  it('of a leak in every variation is the term of the model', () => {
    const report = walked((s) => (s.type === 'up' && s.kind !== 'accent' ? 4 : 0));
    expect(report.softModel.R?.before).toBeCloseTo(4, 0);
    expect(report.measures.leakBefore?.band).toBe('close');
  });
});

describe('leak after', () => {
  it('finds the stick that isn’t stopped after the right hand’s accent', () => {
    const afterRight = (s: Slot): boolean =>
      s.variation === 'accent on 1' && s.hand === 'R' && s.slot % 8 === 2;
    const report = walked((s) => (afterRight(s) ? 6 : 0));
    const { leakAfter } = variation(report, 'accent on 1').measures;
    expect(leakAfter?.hand).toBe('R');
    expect(leakAfter?.value).toBeGreaterThan(5);
    expect(report.weakest).toMatchObject({
      variation: 'accent on 1',
      measure: 'leakAfter',
      hand: 'R',
      slot: 2,
    });
  });
});

describe('spill', () => {
  it('finds the hand that comes up with the other hand’s accent', () => {
    const report = walked(
      (s) => (s.variation === 'RLRL LRLR' && s.hand === 'R' && s.slot % 8 === 5 ? 6 : 0),
      { bars: rotations },
    );
    const { spill } = variation(report, 'RLRL LRLR').measures;
    expect(spill?.hand).toBe('R');
    expect(spill?.value).toBeGreaterThan(5);
    expect(report.weakest).toMatchObject({ variation: 'RLRL LRLR', measure: 'spill', slot: 5 });
  });
});

describe('a variation whose soft strokes are all loud', () => {
  it('is no leak: taps 10 dB up sit at -12 dB, and the sentence speaks of that', () => {
    const report = walked((s) => (s.variation === 'accent on 4' && s.kind === 'tap' ? 10 : 0));
    const { leakBefore, leakAfter } = variation(report, 'accent on 4').measures;
    expect(leakBefore?.band).toBe('holds');
    expect(leakAfter?.band).toBe('holds');
    expect(report.weakest).toMatchObject({ variation: 'accent on 4', measure: 'softness' });
  });
});

describe('fade', () => {
  it('is negative where the second note of a double is softer', () => {
    const report = walked((s) =>
      s.slot % 4 === 3 && s.variation !== 'accent on 4' && s.variation !== 'accent on 3' ? -4 : 0,
    );
    expect(report.measures.fade?.value).toBeCloseTo(-4, 0);
    expect(report.measures.fade?.band).toBe('close');
  });

  it('is absent where every double has an accent in it', () => {
    const report = walked(() => 0);
    expect(variation(report, 'accent on 3').measures).not.toHaveProperty('fade');
    expect(variation(report, 'accent on 1').measures).toHaveProperty('fade');
  });

  it('of under 8 doubles a hand is too few: 3 cycles of a bar with two', () => {
    expect(
      variation(
        walked(() => 0, { cycles: 3 }),
        'accent on 1',
      ).measures.fade,
    ).toMatchObject({
      value: null,
      band: 'too few strokes',
      n: [6, 6],
    });
  });
});

describe('what the phrase cannot tell', () => {
  it('a plain paradiddle’s lone tap always lies beside an accent: terms not measured, softRange judged instead', () => {
    const { measures } = reportOf(played({ bars: [['plain', 'Rlrr Lrll Rlrr Lrll']], cycles: 8 }));
    expect(measures.spill).toMatchObject({ value: null, band: 'not measured' });
    expect(measures.softRange).toMatchObject({ value: 0, band: 'holds' });
  });

  it('one bar without accents tells them', () => {
    const { measures } = reportOf(
      played({
        bars: [
          ['off', 'rlrr lrll rlrr lrll'],
          ['plain', 'Rlrr Lrll Rlrr Lrll'],
        ],
        cycles: 8,
      }),
    );
    expect(measures.spill).toMatchObject({ value: expect.closeTo(0, 9) as number, band: 'holds' });
    expect(measures.softRange).not.toHaveProperty('band');
  });

  it('the accent walk and the rotations tell all five terms in one cycle', () => {
    for (const bars of [accentWalk, rotations]) {
      const { softModel } = reportOf(played({ bars, cycles: 1 }));
      for (const hand of ['R', 'L'] as const) {
        const { rest, ...terms } = softModel[hand] ?? expect.fail('no model');
        expect(rest).toBeCloseTo(-22, 9);
        for (const term of Object.values(terms)) expect(term).toBeCloseTo(0, 9);
      }
    }
  });
});

describe('soft range', () => {
  it('is the loudest place less the softest, of the hand where they lie farther apart', () => {
    const { measures } = reportOf(
      played({
        bars: [['off', 'rlrr lrll rlrr lrll']],
        cycles: 4,
        strike: ({ hand, place }) => ({
          level: -22 + (hand === 'R' && place === 3 ? 6 : 0) + (hand === 'L' && place === 7 ? 1 : 0),
        }),
      }),
    );
    expect(measures.softRange).toMatchObject({ value: 6, hand: 'R', n: [8, 8], margin: -0.75 });
  });

  it('never compares taps with ghosts', () => {
    const { measures } = reportOf(
      played({
        bars: [['ghosted', 'r(l)r(r) l(r)l(l) r(l)r(r) l(r)l(l)']],
        cycles: 4,
        strike: ({ kind }) => ({ level: kind === 'ghost' ? -26 : -18 }),
      }),
    );
    expect(measures.softRange?.value).toBe(0);
  });
});

it('a stroke in the wrong hand is in neither hand’s model', () => {
  const report = walked(() => 0, {
    strike: (slot) =>
      slot.hand === 'L' && slot.kind !== 'accent' && slot.cycle < 4 ? { level: -4, wrongHand: true } : {},
  });
  expect(report.softModel.L?.rest).toBeCloseTo(-22, 6);
});
