import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pair } from '../../src/alignment/pairing';
import { targetsOf } from '../../src/alignment/targets';
import { gridAt, sixteenths, ACCENTS_OFF } from './made';

const paired = (slots: readonly number[], strokes: readonly number[], limit: number): number[] =>
  Array.from(pair(targetsOf(gridAt(slots)), Float64Array.from(strokes), 0, limit));

describe('pairing, by time alone', () => {
  it('each stroke answers the slot it stands on', () => {
    expect(paired([0, 100, 200], [0, 100, 200], 0.4)).toEqual([0, 1, 2]);
  });

  it('a stroke at exactly the limit is paired, one beyond is left over', () => {
    expect(paired([0, 100, 200], [40], 0.4)).toEqual([0]);
    expect(paired([0, 100, 200], [40.001], 0.4)).toEqual([-1]);
  });

  it('half-way between two slots the earlier has it', () => {
    expect(paired([0, 100, 200], [50], 0.75)).toEqual([0]);
    expect(paired([0, 100, 200], [150], 0.75)).toEqual([1]);
  });

  it('of two strokes near one slot the nearer has it, and the other is left over', () => {
    expect(paired([0, 100, 200], [0, 92, 103, 200], 0.4)).toEqual([0, -1, 1, 2]);
  });

  it('a late stroke keeps its slot while its neighbours keep theirs, where the nearest slot would be the next one', () => {
    // The third stroke is 60 ms late, nearer to the slot of the fourth.
    expect(paired([0, 100, 200, 300, 400], [0, 100, 260, 300, 400], 0.8)).toEqual([0, 1, 2, 3, 4]);
  });

  it('keeps the order: a stroke that comes first never answers the later slot', () => {
    const answers = paired([0, 100, 200, 300], [90, 95, 210, 290], 0.999);
    expect(answers).toEqual([0, 1, 2, 3]);
  });

  it('measures in the gap to the nearer neighbour: 60 ms is far from a slot in a run of 100 ms, near in one of 200', () => {
    expect(paired([0, 100, 200], [160], 0.39)).toEqual([-1]);
    expect(paired([0, 200, 400], [460], 0.39)).toEqual([2]);
  });

  it('without strokes or without slots nothing is paired', () => {
    expect(paired([0, 100], [], 0.5)).toEqual([]);
    expect(paired([0, 100], [1000, 2000], 0.5)).toEqual([-1, -1]);
  });
});

/**
 * Cases of mir_eval's onset matching (check-values 5c, mir_eval 0.7: window 50 ms, one-to-one maximum matching), in ms.
 * mir_eval maximises the number of pairs within a window in ms, in any order; ours maximises the sum of L² − d² with d
 * in gaps, in order. Where the window is L gaps, both find as many pairs wherever all gaps are alike.
 */
describe("against mir_eval's matching", () => {
  it('the edge of the window counts: 1.0 against 1.05 s matches, 1.0501 does not', () => {
    // One slot has no neighbour, so a second far away gives the gap: 500 ms, and 50 ms are 0.1 of it.
    expect(paired([1000, 1500], [1050], 0.1)).toEqual([0]);
    expect(paired([1000, 1500], [1050.1], 0.1)).toEqual([-1]);
  });

  it('one estimate between two references is one pair: precision 1, recall 0.5', () => {
    // References 30 ms apart: 50 ms would be more than a gap, which ours never allows; L is 0.999 of 30 ms.
    expect(paired([1000, 1030], [1015], 0.999)).toEqual([0]);
  });

  it('the greedy trap: nearest-first finds one pair, the best matching two', () => {
    // References 1.00 and 1.06, estimates 0.96 and 1.02 s: both pairs lie 40 ms off, 0.6667 of the gap of 60 ms.
    expect(paired([1000, 1060], [960, 1020], 0.999)).toEqual([0, 1]);
  });

  it('in the same trap under a limit of 50 ms, ours leaves one over: two stretched pairs cost more than one and a miss', () => {
    // mir_eval counts pairs only. Ours: 2 · 0.6667² = 0.889 for both, 0.3333² + 0.8333² = 0.806 for the near one alone.
    expect(paired([1000, 1060], [960, 1020], 50 / 60)).toEqual([-1, 0]);
  });

  it('sixteenths at 120 bpm: 6 pairs within 50 and 25 ms, 5 within 10 ms', () => {
    // Precision 0.666667 of nine estimates and recall 0.75 of eight references are 6 pairs; 0.555556 and 0.625 are 5.
    const slots = [0, 125, 250, 375, 500, 625, 750, 875];
    const strokes = [4, 119, 262, 300, 431, 505, 560, 760, 880];
    const pairs = (windowMs: number): number =>
      paired(slots, strokes, windowMs / 125).filter((slot) => slot >= 0).length;
    expect(pairs(50)).toBe(6);
    expect(pairs(25)).toBe(6);
    expect(pairs(10)).toBe(5);
  });

  it('our own window is wider there, so 300, 431 and 560 ms find slots too, each only where it costs less than a miss', () => {
    // 300 lies 0.4 after slot 250 and 0.6 before 375: with L = 0.75 the run 262, 300 answers slots 250 and 375.
    const slots = [0, 125, 250, 375, 500, 625, 750, 875];
    const strokes = [4, 119, 262, 300, 431, 505, 560, 760, 880];
    expect(paired(slots, strokes, 0.75)).toEqual([0, 1, 2, -1, 3, 4, 5, 6, 7]);
  });
});

/** Least cost by trying every order-preserving pairing: the rule of the design as it is written. */
function leastCost(slots: readonly number[], strokes: readonly number[], gap: number, limit: number): number {
  const half = (limit * limit) / 2;
  const from = (i: number, j: number): number => {
    if (i === strokes.length) return (slots.length - j) * half;
    if (j === slots.length) return (strokes.length - i) * half;
    const d = (strokes[i] - slots[j]) / gap;
    const both = Math.abs(d) <= limit ? d * d + from(i + 1, j + 1) : Infinity;
    return Math.min(both, half + from(i + 1, j), half + from(i, j + 1));
  };
  return from(0, 0);
}

describe('laws of pairing', () => {
  const slots = [0, 100, 200, 300, 400];
  const anyStrokes = fc
    .array(fc.integer({ min: -120, max: 520 }), { maxLength: 7 })
    .map((times) => times.sort((a, b) => a - b));
  const anyLimit = fc.double({ min: 0.4, max: 0.999, noNaN: true });

  it('costs as little as the best of all order-preserving pairings', () => {
    fc.assert(
      fc.property(anyStrokes, anyLimit, (strokes, limit) => {
        const answers = paired(slots, strokes, limit);
        const half = (limit * limit) / 2;
        const pairs = answers.filter((slot) => slot >= 0).length;
        let cost = (slots.length + strokes.length - 2 * pairs) * half;
        answers.forEach((slot, i) => {
          if (slot >= 0) cost += ((strokes[i] - slots[slot]) / 100) ** 2;
        });
        expect(cost).toBeCloseTo(leastCost(slots, strokes, 100, limit), 7);
      }),
      { numRuns: 500 },
    );
  });

  it('uses no slot twice, keeps the order, and pairs nothing beyond the limit', () => {
    fc.assert(
      fc.property(anyStrokes, anyLimit, (strokes, limit) => {
        const answers = paired(slots, strokes, limit);
        const used = answers.filter((slot) => slot >= 0);
        expect(used).toEqual([...new Set(used)].sort((a, b) => a - b));
        answers.forEach((slot, i) => {
          if (slot >= 0) expect(Math.abs(strokes[i] - slots[slot]) / 100).toBeLessThanOrEqual(limit);
        });
      }),
    );
  });

  it('shifting strokes and offset together changes nothing', () => {
    fc.assert(
      fc.property(anyStrokes, fc.integer({ min: -1000, max: 1000 }), (strokes, shift) => {
        const targets = targetsOf(gridAt(slots));
        const moved = Float64Array.from(strokes, (at) => at + shift);
        expect(Array.from(pair(targets, moved, shift, 0.75))).toEqual(paired(slots, strokes, 0.75));
      }),
    );
  });
});

describe('tempo arithmetic under it', () => {
  it('a sixteenth at 120 bpm lasts 125 ms, at 90 bpm 166.667 ms', () => {
    // check-values 6.
    expect(targetsOf(sixteenths([ACCENTS_OFF], 1)).smallestGapMs).toBe(125);
    expect(targetsOf(sixteenths([ACCENTS_OFF], 1, 90)).smallestGapMs).toBeCloseTo(166.667, 3);
  });
});
