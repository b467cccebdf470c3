import { describe, expect, it } from 'vitest';
import { measureAim, strengthWords } from '../../../src/grading/words';
import type { HandLines } from '../../../src/grading/evidence/heights';
import { reportOf } from '../../../src/grading/report';
import { settingsOf } from '../../../src/settings';
import { played, type Playing } from '../played';

/** A pad that reads softly: full strokes at −8 dB, low ones at −38. */
const lines = { low: -38, half: -20, full: -8 };
const heights: readonly HandLines[] = [
  { hand: 'R', surface: null, ...lines },
  { hand: 'L', surface: null, ...lines },
];
const graded = (accent: number, soft: number, more: Partial<Playing> = {}, of = heights) =>
  reportOf({
    ...played({
      bars: [['paradiddle', 'Rlrr Lrll Rlrr Lrll']],
      cycles: 8,
      strike: ({ kind }) => ({ level: kind === 'accent' ? accent : soft }),
      ...more,
    }),
    heights: of,
  });

// grading.md section 1
describe('a rig that has learned heights', () => {
  it('softness is ideal at low, holds to half-way from low to half (−29 dB), is not yet there over half', () => {
    const of = (soft: number) => graded(-8, soft).measures.softness!;
    expect(of(-38)).toMatchObject({ value: -38, margin: 1, band: 'holds' });
    expect(of(-29)).toMatchObject({ margin: 0, band: 'holds' });
    expect(of(-28)).toMatchObject({ band: 'close' });
    expect(of(-20)).toMatchObject({ margin: -1, band: 'close' });
    expect(of(-19)).toMatchObject({ band: 'not yet' });
  });

  it('contrast is judged by the accents: ideal at full, holds from half-way from half (−14 dB), not yet under half', () => {
    const of = (accent: number) => graded(accent, -38).measures.contrast!;
    expect(of(-8)).toMatchObject({ value: 30, accentDb: -8, margin: 1, band: 'holds' });
    expect(of(-14)).toMatchObject({ margin: 0, band: 'holds' });
    expect(of(-15)).toMatchObject({ band: 'close' });
    expect(of(-21)).toMatchObject({ value: 17, band: 'not yet' });
  });

  it('a bar is held by the same line', () => {
    expect(graded(-14, -38).bars.every(({ clean }) => clean)).toBe(true);
    expect(graded(-15, -38).bars[0].broke).toEqual(['contrast']);
  });

  it('a hand is judged by its own heights', () => {
    const soft = { low: -44, half: -36, full: -24 };
    const { perHand } = graded(-8, -38, {}, [heights[0], { hand: 'L', surface: null, ...soft }]);
    expect(perHand.R.measures.softness!.band).toBe('holds');
    expect(perHand.L.measures.softness!.margin).toBeCloseTo(-0.5, 10);
  });

  it('accents that clip can hold and not fail', () => {
    const clipped = graded(-15, -38, {
      strike: ({ kind }) => (kind === 'accent' ? { level: -15, velocity: 127 } : { level: -38 }),
    });
    expect(clipped.measures.contrast).toMatchObject({ atLeast: true });
    expect(clipped.measures.contrast!.band).toBeUndefined();
  });

  it('says heights first and dB second', () => {
    expect(graded(-8, -24).sentence).toBe(
      'The taps sit between low and half (−24.0 dB); the aim is half-way from low to half (−29.0 dB) or softer.',
    );
    expect(graded(-20, -38).sentence).toBe(
      'The accents sit at half (−20.0 dB), 18.0 dB louder than the taps; the aim is half-way from half to full (−14.0 dB) or louder.',
    );
  });

  it('says that levels are set to the rig, and without heights that they aren’t', () => {
    expect(strengthWords(graded(-8, -38))).toContain('set to this rig’s low, half and full.');
    const plain = reportOf(played({ bars: [['paradiddle', 'Rlrr Lrll Rlrr Lrll']], cycles: 8 }));
    expect(strengthWords(plain)).toContain('not set to this rig.');
    expect(plain.heights).toBeUndefined();
  });

  it('aims at lines of the rig', () => {
    expect(measureAim('softness', settingsOf('working'), lines)).toBe(
      'aim half-way from low to half (−29.0 dB) or softer',
    );
    expect(measureAim('contrast', settingsOf('working'), lines)).toBe(
      'aim accents half-way from half to full (−14.0 dB) or louder',
    );
  });
});
