import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Slot } from '../../src/exercises/types';
import { measureKeys, measures } from '../../src/grading/measures';
import { figuresOf } from '../../src/grading/figures/named-figures';
import { reportOf } from '../../src/grading/report';
import type { Figure, Measures, Report } from '../../src/grading/types';
import { accentWalk, played, rotations, type Playing, type Struck } from './played';

const swapHands = (sticking: string): string =>
  sticking.replace(/[RLrl]/g, (letter) => ({ R: 'L', L: 'R', r: 'l', l: 'r' })[letter] ?? letter);

/** Two cycles of the accent walk as somebody might play them: dB above a floor, ms late, by slot. */
const SLOTS = 128;
const human = fc.array(
  fc.record({ level: fc.integer({ min: 0, max: 12 }), late: fc.integer({ min: -20, max: 20 }) }),
  { minLength: SLOTS, maxLength: SLOTS },
);
type Passes = readonly { readonly level: number; readonly late: number }[];

const struck =
  (passes: Passes, sign = 1) =>
  ({ index, kind }: Slot): Struck => ({
    // the thousandths keep hands from tying for the larger
    level: (kind === 'accent' ? -14 : -26) + passes[index].level + index / 1000,
    late: sign * passes[index].late,
  });

/** Every figure by its measure's key and, of two, its part. */
function figures(of: Measures): Record<string, Figure> {
  return Object.fromEntries(
    measureKeys
      .flatMap((key) => figuresOf(of, key))
      .map(({ key, part, figure }) => [part === null ? key : `${key} ${part}`, figure]),
  );
}

/** Names of figures whose value changes its sign. */
const flipping = (law: 'mirrored' | 'reversed'): string[] =>
  measures.flatMap(({ key, figures: all }) =>
    all.filter((one) => one[law] === 'flips').map(({ part }) => (part === null ? key : `${key} ${part}`)),
  );

const flipped = ({
  value,
  interval,
}: Figure): { value: number | null; interval: readonly (number | null)[] } => ({
  value: value === null ? null : -value,
  interval: interval ? [-interval[1], -interval[0]] : [],
});

function close(
  actual: Figure | undefined,
  expected: { value: number | null; interval: readonly (number | null)[] | null },
): void {
  if (expected.value === null || !actual) expect(actual?.value ?? null).toBe(expected.value);
  else expect(actual.value).toBeCloseTo(expected.value, 6);
  (expected.interval ?? []).forEach((end, i) => {
    expect(actual?.interval?.[i]).toBeCloseTo(end ?? NaN, 6);
  });
}

describe('a report', () => {
  it('of a take in which every stroke is right holds in every measure and every bar', () => {
    for (const bars of [accentWalk, rotations]) {
      const report = reportOf(played({ bars, cycles: 8 }));
      const all = [report.measures, ...report.variations.map((one) => one.measures)];
      const judged = all.flatMap((of) => Object.entries(figures(of))).filter(([, one]) => one.band);
      expect(new Set(judged.map(([, { band }]) => band))).toEqual(new Set(['holds']));
      expect(report.bars.every(({ clean }) => clean)).toBe(true);
    }
  });

  it('is the same for the same input, byte for byte', () => {
    const graded = played({
      bars: accentWalk,
      cycles: 2,
      strike: ({ index }) => ({ late: (index * 7) % 11 }),
    });
    expect(JSON.stringify(reportOf(graded))).toBe(JSON.stringify(reportOf(graded)));
  });

  it('says what became of each slot, in grid order', () => {
    const { slots, counts, counting } = reportOf(
      played({
        bars: [['plain', 'Rlrr Lrll Rlrr Lrll']],
        cycles: 1,
        strike: ({ index }) =>
          index === 1
            ? { status: 'missed' }
            : index === 2
              ? { level: -19.1, late: 4.2, wrongHand: true }
              : {},
      }),
    );
    const due = { bar: 0, kind: 'tap' };
    expect(slots.slice(0, 3).map((slot) => ({ ...slot, counts: undefined }))).toEqual([
      {
        ...due,
        slot: 0,
        hand: 'R',
        kind: 'accent',
        level: -4,
        deviationMs: 0,
        status: 'matched',
        judgedLevel: -4,
      },
      {
        ...due,
        slot: 1,
        hand: 'L',
        level: null,
        deviationMs: null,
        status: 'missed',
        judgedLevel: null,
        terms: ['before', 'spill'],
      },
      {
        ...due,
        slot: 2,
        hand: 'R',
        level: -19.1,
        deviationMs: 4.2,
        status: 'matched',
        judgedLevel: -19.1,
        terms: ['after'],
        wrongHand: true,
      },
    ]);
    // with the wrong hand it is soft and in time for all that, but of no hand
    const [, missed, wrong] = slots.map((slot) => Object.keys(counting[slot.counts ?? -1] ?? {}));
    expect(missed).toEqual(['complete']);
    expect(wrong).toEqual(expect.arrayContaining(['complete', 'scatter', 'softness', 'contrast']));
    for (const key of ['leakAfter', 'lag', 'balanceSoft']) expect(wrong).not.toContain(key);
    expect(counts.matched + counts.missed + counts.slipped + counts.tooSoft + counts.notMeasured).toBe(
      counts.slots,
    );
  });

  it('pools the same variation met twice in a phrase, by name', () => {
    const { variations } = reportOf(played({ bars: [...accentWalk, accentWalk[0]], cycles: 4 }));
    expect(variations.map(({ name, bars, slots }) => [name, bars, slots])).toEqual([
      ['accent on 1', 8, 128],
      ['accent on 2', 4, 64],
      ['accent on 3', 4, 64],
      ['accent on 4', 4, 64],
    ]);
  });

  it('has stroke types by hand: an accent before a tap is a down stroke', () => {
    const { strokeTypes } = reportOf(played({ bars: [['plain', 'Rlrr Lrll Rlrr Lrll']], cycles: 2 }));
    expect(strokeTypes.R.down).toEqual({ n: 4, level: -4, spread: 0 });
    expect(strokeTypes.R.full).toEqual({ n: 0, level: null, spread: null });
    expect(strokeTypes.L.up).toEqual({ n: 4, level: -22, spread: 0 });
  });

  it('names the variation, hand, measure and slot that hold the phrase back', () => {
    const report = reportOf(
      played({
        bars: accentWalk,
        cycles: 8,
        strike: ({ variation, slot, kind }) => ({
          level:
            kind === 'accent' ? (variation === 'accent on 2' ? (slot % 8 === 5 ? -13.5 : -13) : -4) : -22,
        }),
      }),
    );
    // 9 dB above the taps on slots 1 and 9, 8.5 on 5 and 13
    expect(report.weakest).toMatchObject({ variation: 'accent on 2', measure: 'contrast', slot: 5 });
    expect(report.variations[1]).toMatchObject({ band: 'close', measure: 'contrast' });
  });

  it('of a take that does not fit its grid has counts and a reason, and no grade', () => {
    const report = reportOf(
      played({ bars: accentWalk, cycles: 2, alignment: { misfit: { reason: 'tempo', tempoBpm: 88 } } }),
    );
    expect(report).toMatchObject({
      fits: false,
      misfit: { reason: 'tempo', tempoBpm: 88 },
      measures: {},
      bars: [],
      weakest: null,
      softModel: { R: null, L: null },
    });
    expect(report.variations[0]).toMatchObject({
      name: 'accent on 1',
      bars: 2,
      band: 'not measured',
      measures: {},
    });
    expect(report.counts.matched).toBe(128);
  });

  it('of too few strokes has no weakest variation', () => {
    const graded = played({
      bars: [['plain', 'Rlrr Lrll Rlrr Lrll']],
      cycles: 1,
      strike: ({ index }) => ({ ...(index > 2 ? { status: 'tooSoft' } : {}) }),
    });
    expect(reportOf(graded)).toMatchObject({
      weakest: null,
      variations: [{ band: 'too few strokes', supported: null }],
    });
  });
});

describe('laws', () => {
  const playing = (bars: Playing['bars'], strike: Playing['strike']): Report =>
    reportOf(played({ bars, cycles: 2, ...(strike ? { strike } : {}) }));

  it('mirroring R and L swaps the hands’ rows and flips balance and lag', () => {
    const mirrored = accentWalk.map(([name, sticking]) => [name, swapHands(sticking)] as const);
    fc.assert(
      fc.property(human, (passes) => {
        const one = playing(accentWalk, struck(passes));
        const other = playing(mirrored, struck(passes));
        for (const [key, figure] of Object.entries(figures(one.measures))) {
          const flips = flipping('mirrored').includes(key);
          close(figures(other.measures)[key], flips ? flipped(figure) : figure);
        }
        for (const [key, figure] of Object.entries(figures(one.perHand.R.measures))) {
          close(figures(other.perHand.L.measures)[key], figure);
        }
        expect(other.strokeTypes.L).toEqual(one.strokeTypes.R);
      }),
      { numRuns: 10, endOnFailure: true },
    );
  });

  it('swapping early and late flips only signs', () => {
    const signed = flipping('reversed');
    fc.assert(
      fc.property(human, (passes) => {
        const late = playing(accentWalk, struck(passes));
        const early = playing(accentWalk, struck(passes, -1));
        for (const [key, figure] of Object.entries(figures(late.measures))) {
          close(figures(early.measures)[key], signed.includes(key) ? flipped(figure) : figure);
          expect(figures(early.measures)[key].band).toBe(figure.band);
        }
        expect(early.bars).toEqual(late.bars);
      }),
      { numRuns: 10, endOnFailure: true },
    );
  });

  it('every figure is a number in its interval, or null with a reason', () => {
    fc.assert(
      fc.property(human, fc.array(fc.nat(127), { maxLength: 120 }), (passes, missing) => {
        const gone = new Set(missing);
        const report = playing(accentWalk, (slot) =>
          gone.has(slot.index) ? { status: 'missed' } : struck(passes)(slot),
        );
        const all = [
          report.measures,
          ...report.variations.map((one) => one.measures),
          report.perHand.R.measures,
        ];
        for (const figure of all.flatMap((of) => Object.values(figures(of)))) {
          if (figure.value === null) {
            expect(['too few strokes', 'not measured']).toContain(figure.band);
            continue;
          }
          expect(Number.isFinite(figure.value)).toBe(true);
          if (!figure.interval) continue;
          expect(figure.interval[0]).toBeLessThanOrEqual(figure.value + 1e-9);
          expect(figure.interval[1]).toBeGreaterThanOrEqual(figure.value - 1e-9);
        }
      }),
      { numRuns: 25, endOnFailure: true },
    );
  });
});
