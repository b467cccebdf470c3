import { describe, expect, it } from 'vitest';
import { figureUnder } from '../../../src/components/play/figure-words';
import { contrastFigure } from '../../../src/components/play/rig-in-play';
import { gridOf } from '../../../src/exercises/grid';
import { phraseNamed } from '../../../src/exercises/phrase';
import type { LiveState } from '../../../src/take/types';

// Low, half and full first and dB second where the rig knows them; the dB limits where it doesn't: grading.md section 1.

const cycle = gridOf(phraseNamed('Single paradiddle, accent walk'), { bpm: 84 }, 0, 4);
const lines = { low: -24, half: -14, full: -4 };
/** Every slot struck once: accents and soft strokes at these levels. */
const playedAt = (accentDb: number, softDb: number): LiveState => {
  const passes = cycle.slots.map(({ kind }) => [
    { levelDb: kind === 'accent' ? accentDb : softDb, deviationMs: 0 },
  ]);
  return { strokes: 8, offsetMs: 0, passes, extras: [], contrastDb: accentDb - softDb, unmapped: 0 } as never;
};
const under = (accentDb: number, softDb: number, known: typeof lines | null): string =>
  figureUnder(contrastFigure(playedAt(accentDb, softDb), cycle, known, 12));

describe('what stands under the contrast', () => {
  it('begins with where the strokes stand between the player’s own heights, the dB after it', () => {
    // Soft strokes hold up to −19 dB, half-way from low to half, accents from −9 dB: 10 dB lie between.
    expect(under(-4, -23, lines)).toBe(
      'accents at full, soft strokes at low · dB, contrast · aim full and low, 10 dB apart or more',
    );
    expect(under(-10, -19, lines)).toBe(
      'accents between half and full, soft strokes between low and half · dB, contrast · aim full and low, 10 dB apart or more',
    );
  });

  it('is in dB alone where the rig knows no heights', () => {
    expect(under(-4, -23, null)).toBe('dB, contrast of the last two cycles · aim 12 dB or more');
  });
});
