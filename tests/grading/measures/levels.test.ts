import { describe, expect, it } from 'vitest';
import { reportOf } from '../../../src/grading/report';
import type { Measures } from '../../../src/grading/types';
import { levelDb } from '../../../src/units';
import { played, type Playing } from '../played';

/** Measures of the whole take of one bar of single paradiddles, played `cycles` times. */
function measures(playing: Partial<Playing>): Measures {
  return reportOf(played({ bars: [['plain', 'Rlrr Lrll Rlrr Lrll']], cycles: 4, ...playing })).measures;
}

// Limits: common practice, no source. Levels: 40·log10(v/127), GM2/DLS/SoundFont 2.
describe('contrast', () => {
  it('of accents at 127 over taps at 64 is 11.905 dB, close to the 12 that hold', () => {
    const { contrast } = measures({
      strike: ({ kind }) => ({ level: levelDb(kind === 'accent' ? 127 : 64), velocity: 100 }),
    });
    expect(contrast?.value).toBeCloseTo(11.905, 3);
    expect(contrast).toMatchObject({ n: [16, 48], band: 'close', sure: true });
  });

  it('is median against median: one wild accent does not move it', () => {
    const { contrast } = measures({
      strike: ({ index, kind }) => ({ level: index === 0 ? -30 : kind === 'accent' ? -4 : -20 }),
    });
    expect(contrast?.value).toBe(16);
  });

  it('is negative where taps are louder than accents', () => {
    expect(
      measures({ strike: ({ kind }) => ({ level: kind === 'accent' ? -12 : -6 }) }).contrast,
    ).toMatchObject({
      value: -6,
      band: 'not yet',
    });
  });

  it('is absent in a phrase without accents', () => {
    expect(measures({ bars: [['off', 'rlrr lrll rlrr lrll']] })).not.toHaveProperty('contrast');
  });

  it('needs 4 accents', () => {
    const strike: Playing['strike'] = ({ index, kind }) =>
      kind === 'accent' && index > 8 ? { status: 'missed' } : {};
    expect(measures({ strike }).contrast).toMatchObject({ value: null, band: 'too few strokes', n: [3, 48] });
  });

  it('where accents clip is at least its value: it can hold, but not fail', () => {
    const clip = (soft: number): Measures =>
      measures({ strike: ({ kind }) => (kind === 'accent' ? { level: 0, velocity: 127 } : { level: soft }) });
    expect(clip(-20).contrast).toMatchObject({ value: 20, band: 'holds', atLeast: true });
    expect(clip(-8).contrast).toEqual({ value: 8, interval: [8, 8], n: [16, 48], atLeast: true });
  });
});

describe('clarity', () => {
  it('is 1 where every accent is louder than every tap, ½ where all are the same', () => {
    expect(measures({}).clarity?.value).toBe(1);
    expect(measures({ strike: () => ({ level: -10 }) }).clarity?.value).toBe(0.5);
  });

  it('of 16 accents of which 4 are softer than every tap is 0.75', () => {
    const { clarity } = measures({
      strike: ({ index, kind }) => ({ level: kind === 'accent' ? (index % 16 === 0 ? -30 : -4) : -20 }),
    });
    expect(clarity?.value).toBe(0.75);
  });
});

describe('softness', () => {
  it('of taps at velocity 40 is -20.07 dB', () => {
    const { softness } = measures({
      strike: ({ kind }) => ({ level: levelDb(kind === 'accent' ? 110 : 40) }),
    });
    expect(softness?.value).toBeCloseTo(-20.07, 2);
    expect(softness).toMatchObject({ band: 'holds', n: [48] });
  });

  it('at -16 dB holds with nothing to spare, at -10 is at the not yet limit', () => {
    const at = (level: number): Measures['softness'] =>
      measures({ strike: ({ kind }) => ({ level: kind === 'accent' ? 0 : level }) }).softness;
    expect(at(-16)).toMatchObject({ margin: 0, supported: 0, band: 'holds' });
    expect(at(-10)).toMatchObject({ margin: -1, band: 'close' });
    expect(at(-9)).toMatchObject({ band: 'not yet' });
  });

  it('where a phrase has taps and ghosts speaks of the ghosts, and ghostContrast of the two', () => {
    const { softness, ghostContrast } = measures({
      bars: [['ghosted', 'R(l)rr L(r)ll R(l)rr L(r)ll']],
      strike: ({ kind }) => ({ level: { accent: -4, tap: -16, ghost: -24 }[kind] }),
    });
    expect(softness).toMatchObject({ value: -24, n: [16] });
    expect(ghostContrast).toMatchObject({ value: 8, n: [32, 16], margin: 1, band: 'holds' });
  });
});

describe('balance', () => {
  it('is positive where the right hand is louder', () => {
    const { balanceSoft, balanceAccent } = measures({
      strike: ({ kind, hand }) => ({ level: (kind === 'accent' ? -4 : -18) - (hand === 'L' ? 3 : 0) }),
    });
    expect(balanceSoft).toMatchObject({ value: 3, n: [24, 24], band: 'close' });
    expect(balanceAccent).toMatchObject({ value: 3, n: [8, 8], margin: -0.5, band: 'close' });
  });

  it('leaves strokes in the wrong hand out', () => {
    const { balanceSoft } = measures({
      strike: ({ index, hand, kind }) =>
        kind === 'tap' && hand === 'R' && index < 32 ? { level: 0, wrongHand: true } : {},
    });
    expect(balanceSoft).toMatchObject({ value: 0, n: [12, 24] });
  });

  it('of accents that only one hand has is absent', () => {
    expect(measures({ bars: [['one hand', 'Rlrl Rlrl Rlrl Rlrl']] })).not.toHaveProperty('balanceAccent');
  });

  it('of clipping accents has a value and no verdict', () => {
    const { balanceAccent, accentSpread } = measures({
      strike: ({ kind }) => (kind === 'accent' ? { level: 0, velocity: 127 } : {}),
    });
    expect(balanceAccent).toEqual({ value: 0, interval: [0, 0], n: [8, 8] });
    expect(accentSpread).not.toHaveProperty('band');
  });
});

describe('clipping', () => {
  const clipping = (loudest: number): readonly string[] =>
    reportOf(
      played({
        bars: [['plain', 'Rlrr Lrll Rlrr Lrll']],
        cycles: 25,
        strike: ({ index, kind }) => ({ velocity: kind === 'accent' && index < 4 * loudest ? 127 : 100 }),
      }),
    ).clipping;

  it('is over 3 % of accents at velocity 127: 4 of 100, not 3', () => {
    expect(clipping(4)).toEqual(['pad']);
    expect(clipping(3)).toEqual([]);
  });
});

describe('spreads', () => {
  it('are 1.4826 times the median absolute deviation', () => {
    // taps at -20 and -22, half of each, about -21: each 1 dB away
    const { softSpread } = measures({
      strike: ({ cycle, kind }) => ({ level: kind === 'accent' ? -4 : -20 - 2 * (cycle % 2) }),
    });
    expect(softSpread?.value).toBeCloseTo(1.4826, 12);
  });

  it('need 8 strokes, where a median needs 4', () => {
    const { accentSpread, contrast } = measures({ cycles: 1 });
    expect(accentSpread).toMatchObject({ value: null, band: 'too few strokes', n: [4] });
    expect(contrast).toMatchObject({ value: 18 });
  });
});
