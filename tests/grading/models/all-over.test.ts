import { describe, expect, it } from 'vitest';
import { loudAllOver } from '../../../src/grading/models/all-over';
import type { SoftRow } from '../../../src/grading/models/soft-model';
import { seeded } from '../seeded';

type Flags = readonly [after: number, before: number, spill: number, second: number];

/** Soft strokes of one hand, variation by variation, as the accent walk has them. */
const WALK: readonly (readonly Flags[])[] = [
  [
    [1, 0, 0, 0],
    [0, 1, 0, 0],
    [0, 0, 1, 1],
  ],
  [
    [0, 0, 1, 0],
    [0, 0, 0, 1],
    [0, 0, 0, 0],
  ],
  [
    [0, 0, 0, 0],
    [1, 0, 0, 1],
    [0, 1, 1, 0],
  ],
  [
    [0, 0, 0, 0],
    [1, 0, 1, 0],
    [0, 1, 0, 1],
  ],
];

function taken(
  variations: readonly (readonly Flags[])[],
  cycles: number,
  db: (variation: number, flags: Flags) => number,
): { rows: SoftRow[]; variationOf: number[] } {
  const random = seeded(5);
  const rows: SoftRow[] = [];
  const variationOf: number[] = [];
  for (let cycle = 0; cycle < cycles; cycle++) {
    variations.forEach((strokes, variation) => {
      for (const flags of strokes) {
        const [after, before, spill, second] = flags.map(Boolean);
        const levelDb = -20 + db(variation, flags) + 1.2 * random.normal();
        rows.push({ levelDb, after, before, spill, second });
        variationOf.push(variation);
      }
    });
  }
  return { rows, variationOf };
}
const over = (...of: Parameters<typeof taken>): number[] => {
  const { rows, variationOf } = taken(...of);
  return [...loudAllOver(rows, variationOf, of[0].length, 1)];
};

describe('loud all over, told from a leak', () => {
  it('taps of one variation 4 dB up, whatever they lie beside, are loud all over, by a little under 4', () => {
    const [first, second, third, fourth] = over(WALK, 8, (v) => (v === 2 ? 4 : 0));
    expect(third).toBeGreaterThan(2.5);
    expect(third).toBeLessThan(4.5);
    expect([first, second, fourth]).toEqual([0, 0, 0]);
  });

  it('taps of one variation 4 dB down are soft all over', () => {
    expect(over(WALK, 8, (v) => (v === 1 ? -4 : 0))[1]).toBeLessThan(-2.5);
  });

  it('a leak, or leak and spill together, are neither', () => {
    expect(over(WALK, 8, (v, [, before]) => (v === 2 ? 6 * before : 0))).toEqual([0, 0, 0, 0]);
    expect(over(WALK, 8, (v, [, before, spill]) => (v === 3 ? 6 * before + 6 * spill : 0))).toEqual([
      0, 0, 0, 0,
    ]);
  });

  it('an even player is neither', () => {
    expect(over(WALK, 4, () => 0)).toEqual([0, 0, 0, 0]);
  });

  it('where every soft stroke carries a term, leak and spill of all of them are all its taps being loud', () => {
    const inward: readonly Flags[] = [
      [1, 0, 1, 0],
      [0, 0, 1, 0],
      [0, 1, 0, 1],
    ];
    const found = over([WALK[0], WALK[1], WALK[2], inward], 8, (v, [after, before, spill]) =>
      v === 3 && after + before + spill > 0 ? 6 : 0,
    );
    expect(found[3]).toBeGreaterThan(4);
  });

  it('one variation alone can’t be told from the resting level', () => {
    expect(over([WALK[0]], 8, () => 4)).toEqual([0]);
  });

  it('variations in which levels and terms go together say nothing', () => {
    // no accents in the first, and a single surrounding in the second: its level or its leak
    const plain: readonly Flags[] = [[0, 0, 0, 0]];
    const leaking: readonly Flags[] = [[0, 1, 0, 0]];
    expect(over([plain, leaking], 8, (v) => 5 * v)).toEqual([0, 0]);
  });
});
