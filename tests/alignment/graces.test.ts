import { describe, expect, it } from 'vitest';
import { graceReach, mayBeGraces, mayLead } from '../../src/alignment/graces';
import { gridOf } from '../../src/exercises/grid';
import { settingsOf } from '../../src/settings';
import { ACCENTS_OFF, phraseOf, stroke } from './made';

// Widths: common practice, no source. A sixteenth at 60 bpm lasts 250 ms, at 180 bpm 83.3 ms (arithmetic).
const at = (bpm: number, changes: Readonly<Record<string, number>> = {}) =>
  graceReach(gridOf(phraseOf([ACCENTS_OFF], 4), { bpm }, 0, 1), settingsOf('working', changes));

describe('what may be a grace of the next stroke', () => {
  const reach = at(60, { 'grace.leastMs': 8, 'grace.mostMs': 80 });
  const leads = (aheadMs: number, louderDb = -10): boolean =>
    mayLead(stroke(1000 - aheadMs, { levelDb: -10 + louderDb }), stroke(1000, { levelDb: -10 }), reach);

  it('from its least to its most ahead', () => {
    expect([7.9, 8, 80, 80.1].map((ms) => leads(ms))).toEqual([false, true, true, false]);
  });

  it('up to 6 dB louder than it', () => {
    expect([6, 6.1].map((db) => leads(30, db))).toEqual([true, false]);
  });

  it('of a row of strokes each but the last, where the next is near enough', () => {
    const strokes = [0, 30, 60, 400, 430].map((ms) => stroke(ms));
    expect([...mayBeGraces(strokes, reach, 2)].sort()).toEqual([0, 1, 3]);
    expect(mayBeGraces([stroke(0)], reach, 2).size).toBe(0);
  });

  it('before as many as lead to any slot stands a stroke of its own', () => {
    const strokes = [0, 40, 80, 400].map((ms) => stroke(ms));
    expect([...mayBeGraces(strokes, reach, 1)]).toEqual([1]);
  });

  it('at fast tempos no farther than 0.6 of the gap: 50 ms at 180 bpm', () => {
    expect(at(180).mostMs).toBeCloseTo(50, 9);
    expect(at(60).mostMs).toBe(settingsOf('working')['grace.mostMs']);
    expect(at(180, { 'grace.mostGaps': 0.3 }).mostMs).toBeCloseTo(25, 9);
  });
});
