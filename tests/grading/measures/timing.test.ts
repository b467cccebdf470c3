import { describe, expect, it } from 'vitest';
import { reportOf } from '../../../src/grading/report';
import type { Measures } from '../../../src/grading/types';
import { played, type Playing } from '../played';

function measures(playing: Partial<Playing>): Measures {
  return reportOf(played({ bars: [['plain', 'Rlrr Lrll Rlrr Lrll']], cycles: 4, ...playing })).measures;
}

// At 120 bpm a sixteenth is 125 ms. Limits: common practice, no source.
describe('scatter', () => {
  it('is 0 where a place is always equally late: that is a habit, and shape shows it', () => {
    const { scatter, shape } = measures({ strike: ({ place }) => ({ late: 3 * place }) });
    expect(scatter?.value).toBe(0);
    // sample sd of 0, 3, …, 21: 3·√6
    expect(shape?.value).toBeCloseTo(3 * Math.sqrt(6), 10);
  });

  it('is the standard deviation about the mean of each place, over n - groups', () => {
    // 8 places of 8 strokes, each ±5 ms: √(64·25/(64 - 8))
    const { scatter } = measures({ strike: ({ cycle }) => ({ late: cycle % 2 === 0 ? 5 : -5 }) });
    expect(scatter?.value).toBeCloseTo(Math.sqrt(1600 / 56), 10);
    expect(scatter).toMatchObject({ n: [64], band: 'holds' });
  });

  it('holds up to 8 % of the gap: at 120 bpm 10 ms', () => {
    const { scatter } = measures({
      cycles: 40,
      strike: ({ cycle }) => ({ late: cycle % 2 === 0 ? 10 : -10 }),
    });
    // √(640·100/632) = 10.06 ms
    expect(scatter?.margin).toBeCloseTo(-0.00631, 4);
  });
});

describe('lag', () => {
  it('is right minus left: right 2 ms late and left 10 early is +12 ms, as professionals were (Fujii et al. 2011)', () => {
    const { lag, asynchrony } = measures({ strike: ({ hand }) => ({ late: hand === 'R' ? 2 : -10 }) });
    expect(lag).toMatchObject({ value: 12, n: [32, 32], band: 'close' });
    expect(asynchrony).toMatchObject({ value: -4, n: [64] });
    expect(asynchrony).not.toHaveProperty('band');
  });

  it('is negative where the right hand is early', () => {
    expect(measures({ strike: ({ hand }) => ({ late: hand === 'R' ? -25 : 0 }) }).lag).toMatchObject({
      value: -25,
      band: 'not yet',
    });
  });

  it('of one hand alone is absent', () => {
    expect(measures({ bars: [['one hand', 'Rrrr rrrr rrrr rrrr']] })).not.toHaveProperty('lag');
  });

  it('leaves strokes in the wrong hand out', () => {
    const { lag } = measures({
      strike: ({ index }) => (index % 16 === 0 ? { late: 40, wrongHand: true } : {}),
    });
    expect(lag).toMatchObject({ value: 0, n: [28, 32] });
  });
});

describe('double gap', () => {
  const second = ({ slot }: { readonly slot: number }): boolean => slot % 4 === 3;

  it('of second notes 10 ms late in a gap of 125 is +8 %', () => {
    const { doubleGap } = measures({ strike: (slot) => ({ late: second(slot) ? 10 : 0 }) });
    expect(doubleGap).toMatchObject({ value: 8, n: [16] });
  });

  it('holds up to 8 ms where that is more than 5 %: at 120 bpm 6.4 %', () => {
    expect(measures({ strike: (slot) => ({ late: second(slot) ? 8 : 0 }) }).doubleGap).toMatchObject({
      value: 6.4,
      margin: 0,
      band: 'holds',
    });
    expect(measures({ strike: (slot) => ({ late: second(slot) ? -16.5 : 0 }) }).doubleGap?.band).toBe(
      'not yet',
    );
  });

  it('leaves out a double with a missed note, and needs 8', () => {
    const missed = measures({ strike: ({ index }) => (index === 2 ? { status: 'missed' } : {}) });
    expect(missed.doubleGap?.n).toEqual([15]);
    expect(measures({ cycles: 1 }).doubleGap).toMatchObject({ value: null, band: 'too few strokes', n: [4] });
  });

  it('is absent where there is no double', () => {
    expect(measures({ bars: [['singles', 'Rlrl Rlrl Rlrl Rlrl']] })).not.toHaveProperty('doubleGap');
  });
});

describe('accent stretch', () => {
  it('of accents held 5 ms longer in 125 is +4 %, without a verdict', () => {
    const { accentStretch } = measures({ strike: ({ kind }) => ({ late: kind === 'accent' ? -5 : 0 }) });
    expect(accentStretch).toMatchObject({ value: 4, n: [16] });
    expect(accentStretch).not.toHaveProperty('margin');
  });
});

describe('slipped slots', () => {
  it('are out of all measures', () => {
    const { asynchrony, contrast, scatter } = measures({
      strike: ({ index }) => (index >= 16 && index < 32 ? { status: 'slipped', late: 60, level: 0 } : {}),
    });
    expect([asynchrony?.n, contrast?.n, scatter?.n]).toEqual([[48], [12, 36], [48]]);
    expect(asynchrony?.value).toBe(0);
  });
});
