import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { timeModel, type TimeRow } from '../../../src/grading/models/time-model';
import { reference } from '../../reference/read';
import { seeded } from '../seeded';
import { SEAMLESS, timeRows } from '../time-rows';

type Ends = readonly [value: number, low: number, high: number];
type Row = readonly [
  bar: number,
  cycle: number,
  variation: number,
  right: 0 | 1,
  partial: number,
  second: 0 | 1,
  seam: 0 | 1,
  ms: number,
];
interface Case {
  readonly gap: number;
  readonly rows: readonly Row[];
  readonly feel: 'places' | 'swing' | 'none';
  readonly told: Readonly<Partial<Record<'lag' | 'second' | 'feel', Ends>>>;
  readonly residuals: readonly number[];
  readonly scale: number;
  readonly mass?: Readonly<Record<string, number>>;
}
/** tests/reference/time_model.py: statsmodels' RLM and cov_type='cluster', R's MASS::rlm */
const { cases } = reference('time_model') as { readonly cases: Readonly<Record<string, Case>> };

const rowsOf = ({ rows, gap }: Case): TimeRow[] =>
  rows.map(([bar, cycle, variation, right, partial, second, seam, deviationMs]) => ({
    bar,
    cycle,
    variation,
    hand: right === 1 ? 'R' : 'L',
    partial,
    partials: 4,
    second: second === 1,
    seam: seam === 1,
    deviationMs,
    gapMs: gap,
  }));

describe('against statsmodels (RLM; the covariance clustered by bar)', () => {
  it.each(Object.entries(cases))('%s', (_, of) => {
    const model = timeModel(rowsOf(of))!;
    for (const term of ['lag', 'second', 'feel'] as const) {
      const expected = of.told[term];
      if (expected === undefined) expect(model[term]).toBeNull();
      else {
        expect(model[term]?.value).toBeCloseTo(expected[0], 7);
        expect(model[term]?.interval[0]).toBeCloseTo(expected[1], 7);
        expect(model[term]?.interval[1]).toBeCloseTo(expected[2], 7);
      }
    }
    of.residuals.forEach((residual, i) => {
      expect(model.residuals[i]).toBeCloseTo(residual, 7);
    });
  });

  it('coefficients are those of MASS::rlm within 0.01 ms, where the scale is over its floor', () => {
    const overFloor = Object.values(cases).filter(({ mass }) => mass);
    expect(overFloor).toHaveLength(4);
    for (const of of overFloor) {
      const model = timeModel(rowsOf(of))!;
      expect(Math.abs(model.lag!.value - of.mass!.lag)).toBeLessThan(0.01);
    }
  });
});

const WALK = ['RLRRLRLLRLRRLRLL', 'RLRRLRLLRLRRLRLL', 'RLRRLRLLRLRRLRLL', 'RLRRLRLLRLRRLRLL'];

describe('what is told apart', () => {
  it('a left hand 18 ms late in a swung paradiddle is a lag of −18 and a feel of +30, and no double', () => {
    const random = seeded(3);
    const model = timeModel(
      timeRows(
        WALK,
        8,
        ({ hand, partial }) => (hand === 'L' ? 18 : 0) + (partial % 2 === 1 ? 30 : 0) + 6 * random.normal(),
      ),
    )!;
    expect(model.lag?.value).toBeGreaterThan(-20);
    expect(model.lag?.value).toBeLessThan(-16);
    expect(Math.abs(model.feel!.value - 30)).toBeLessThan(2);
    expect(Math.abs(model.second!.value)).toBeLessThan(3);
    expect(model.notToldApart).toEqual([]);
  });

  it('in plain singles the late hand and the swing are one thing to the ear: lag, not told apart from feel', () => {
    const model = timeModel(timeRows(['RLRLRLRLRLRLRLRL'], 8, ({ hand }) => (hand === 'L' ? 20 : 0)))!;
    expect(model.lag?.value).toBeCloseTo(-20, 9);
    expect(model.feel).toBeNull();
    expect(model.notToldApart).toEqual(['lag']);
  });

  it('singles led by either hand in turn tell them apart', () => {
    const model = timeModel(
      timeRows(['RLRLRLRLRLRLRLRL', 'LRLRLRLRLRLRLRLR'], 4, ({ hand }) => (hand === 'L' ? 20 : 0)),
    )!;
    expect(model.lag?.value).toBeCloseTo(-20, 9);
    expect(model.feel?.value).toBeCloseTo(0, 9);
    expect(model.notToldApart).toEqual([]);
  });

  it('in a double stroke roll a wide double may be swing; the hands are told from it', () => {
    const model = timeModel(timeRows(['RRLLRRLLRRLLRRLL'], 8, ({ second }) => (second ? 12 : 0)))!;
    expect(model.second?.value).toBeCloseTo(12, 9);
    expect(model.lag?.value).toBeCloseTo(0, 9);
    expect(model.notToldApart).toEqual(['doubleGap']);
  });

  it('triplets have no swing, so a hand is told from their places', () => {
    const rows = timeRows(['RLRLRLRLRLRL'], 6, ({ hand }) => (hand === 'R' ? 9 : 0), 3);
    const model = timeModel(rows)!;
    expect(model.lag?.value).toBeCloseTo(9, 9);
    expect(model.feel).toBeNull();
    expect(model.notToldApart).toEqual([]);
  });

  it('one hand alone has a feel and no lag', () => {
    const model = timeModel(timeRows(['RRRRRRRR'], 8, ({ partial }) => (partial === 1 ? 40 : 0), 2))!;
    expect(model.lag).toBeNull();
    expect(model.feel?.value).toBeCloseTo(40, 9);
  });
});

describe('robust and clustered', () => {
  it('a bar that comes late as a whole bends no term', () => {
    const model = timeModel(
      timeRows(WALK, 4, ({ bar, hand }) => (bar % 4 === 2 ? 60 : 0) + (hand === 'R' ? 5 : 0)),
    )!;
    expect(model.lag?.value).toBeCloseTo(5, 9);
    expect(model.bars[2].meanMs - model.bars[1].meanMs).toBeCloseTo(60, 9);
  });

  it('one left stroke in twelve 80 ms late moves the lag by under 1 ms', () => {
    const random = seeded(8);
    const rows = timeRows(
      WALK,
      8,
      ({ hand }) => (hand === 'L' && random.uniform() < 1 / 12 ? 80 : 0) + 6 * random.normal(),
    );
    expect(Math.abs(timeModel(rows)!.lag!.value)).toBeLessThan(1);
  });

  it('three bars are too few, and so are bars of three strokes', () => {
    expect(timeModel(timeRows(WALK, 1, SEAMLESS).filter(({ bar }) => bar < 3))).toBeUndefined();
    expect(timeModel(timeRows(['RLR', 'RLR', 'RLR', 'RLR', 'RLR'], 1, SEAMLESS))).toBeUndefined();
  });

  it('shifting every stroke, or each bar by an amount of its own, changes no term', () => {
    const random = seeded(12);
    const rows = timeRows(WALK, 3, () => 6 * random.normal());
    const before = timeModel(rows)!;
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -90, max: 90, noNaN: true }), { minLength: 12, maxLength: 12 }),
        (by) => {
          const after = timeModel(
            rows.map((row) => ({ ...row, deviationMs: row.deviationMs + by[row.bar] })),
          )!;
          expect(after.lag!.value).toBeCloseTo(before.lag!.value, 6);
          expect(after.second!.interval[1]).toBeCloseTo(before.second!.interval[1], 6);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('mirroring R and L flips the lag and nothing else', () => {
    const random = seeded(13);
    const rows = timeRows(WALK, 3, ({ hand }) => (hand === 'L' ? 9 : 0) + 6 * random.normal());
    const mirrored = rows.map((row): TimeRow => ({ ...row, hand: row.hand === 'R' ? 'L' : 'R' }));
    const [one, other] = [timeModel(rows)!, timeModel(mirrored)!];
    expect(other.lag!.value).toBeCloseTo(-one.lag!.value, 8);
    expect(other.feel!.value).toBeCloseTo(one.feel!.value, 8);
    expect(other.second!.value).toBeCloseTo(one.second!.value, 8);
  });
});
