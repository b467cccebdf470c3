import { describe, expect, it } from 'vitest';
import { reportOf } from '../../../src/grading/report';
import { accentWalk, played } from '../played';

// The counting is arithmetic. Limits: common practice, no source.
describe('complete', () => {
  it('of 253 matched, 3 missed and 1 extra is 253/257', () => {
    const { measures, counts } = reportOf(
      played({
        bars: accentWalk,
        cycles: 4,
        strike: ({ index }) => (index < 3 ? { status: 'missed' } : {}),
        extras: [{ stroke: 0, bar: 5 }],
      }),
    );
    expect(measures.complete?.value).toBe(253 / 257);
    expect(measures.complete?.n).toEqual([257]);
    expect(counts).toMatchObject({ slots: 256, matched: 253, missed: 3, extra: 1 });
  });

  it('counts a wrong hand in the right place as one fault', () => {
    const { measures, counts } = reportOf(
      played({ bars: accentWalk, cycles: 4, strike: ({ index }) => ({ wrongHand: index === 7 }) }),
    );
    expect(measures.complete?.value).toBe(255 / 256);
    expect(counts).toMatchObject({ matched: 256, wrongHand: 1 });
  });

  it('counts a slip as one fault, however many slots it displaces, in the variation it begins in', () => {
    const report = reportOf(
      played({
        bars: accentWalk,
        cycles: 4,
        strike: ({ index }) => (index >= 20 && index < 36 ? { status: 'slipped' } : {}),
        slips: [{ bar: 1, slot: 4, slots: 16, lag: 1 }],
      }),
    );
    expect(report.measures.complete?.value).toBe(240 / 241);
    expect(report.variations[1].measures.complete?.value).toBe(52 / 53);
    expect(report.variations[2].measures.complete?.value).toBe(1);
  });

  it('counts neither too soft for this pad nor not measured', () => {
    const { measures, counts } = reportOf(
      played({
        bars: accentWalk,
        cycles: 1,
        strike: ({ index }) =>
          index === 1 ? { status: 'tooSoft' } : index === 2 ? { status: 'notMeasured' } : {},
      }),
    );
    expect(measures.complete).toMatchObject({ value: 1, n: [62] });
    expect(counts).toMatchObject({ matched: 62, tooSoft: 1, notMeasured: 1 });
  });

  it('puts an extra in the variation whose bar it falls in', () => {
    const { variations } = reportOf(played({ bars: accentWalk, cycles: 1, extras: [{ stroke: 0, bar: 2 }] }));
    expect(variations.map(({ measures }) => measures.complete?.value)).toEqual([1, 1, 16 / 17, 1]);
  });
});
