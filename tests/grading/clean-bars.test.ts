import { describe, expect, it } from 'vitest';
import { reportOf } from '../../src/grading/report';
import type { BarReport } from '../../src/grading/types';
import { played, type Playing } from './played';

function bars(strike: Playing['strike'], more: Partial<Playing> = {}): readonly BarReport[] {
  return reportOf(
    played({ bars: [['plain', 'Rlrr Lrll Rlrr Lrll']], cycles: 4, ...(strike ? { strike } : {}), ...more }),
  ).bars;
}
const broke = (reports: readonly BarReport[]): unknown => reports.map((bar) => bar.broke);

// What breaks a bar: common practice, no source.
describe('a clean bar', () => {
  it('has nothing missed, added or in the wrong hand', () => {
    const reports = bars(({ index }) => (index === 3 ? { status: 'missed' } : { wrongHand: index === 20 }), {
      extras: [{ stroke: 0, bar: 2 }],
    });
    expect(broke(reports)).toEqual([['missed'], ['wrongHand'], ['extra'], []]);
    expect(reports.map(({ clean }) => clean)).toEqual([false, false, false, true]);
  });

  it('has no slipped slot', () => {
    expect(broke(bars(({ index }) => (index === 40 ? { status: 'slipped' } : {})))).toEqual([
      [],
      [],
      ['slipped'],
      [],
    ]);
  });

  it('may have a stroke too soft for this pad', () => {
    expect(broke(bars(({ index }) => (index === 3 ? { status: 'tooSoft' } : {})))).toEqual([[], [], [], []]);
  });

  it('has 12 dB of contrast or more', () => {
    const reports = bars(({ bar, kind }) => ({
      level: kind === 'accent' ? -4 : [-16, -15.9, -22, -22][bar],
    }));
    expect(broke(reports)).toEqual([[], ['contrast'], [], []]);
  });

  it('has no tap louder than its softest accent', () => {
    const reports = bars(({ index, kind }) => ({
      level: index === 0 ? -12 : index === 2 ? -11 : kind === 'accent' ? -4 : -22,
    }));
    expect(broke(reports)).toEqual([['order'], [], [], []]);
  });

  it('scatters by no more than 1.25 times the limit: at 120 bpm 12.5 ms', () => {
    // ±13 in every other cycle against place means of 0
    const reports = bars(({ cycle }) => ({ late: [13, -13, 12, -12][cycle] }));
    expect(broke(reports)).toEqual([['scatter'], ['scatter'], [], []]);
  });

  it('skips conditions without strokes: a bar without accents has no contrast', () => {
    expect(broke(bars(undefined, { bars: [['off', 'rlrr lrll rlrr lrll']] }))).toEqual([[], [], [], []]);
  });

  it('is not broken by contrast where accents clip: it may be more than can be told', () => {
    const reports = bars(({ kind }) => (kind === 'accent' ? { level: 0, velocity: 127 } : { level: -8 }));
    expect(broke(reports)).toEqual([[], [], [], []]);
  });

  // half-way between leaks of 2 and 5 dB is 3.5; in the first year, between 4 and 8, it is 6. Of the three right strokes of
  // the bar that prepare an accent (the third one that of the next bar) two leak: the bar's mean is two thirds of it.
  it('has no leak beyond half-way between its limits, by the limits in force', () => {
    const walk = [
      ['accent on 1', 'Rlrr Lrll Rlrr Lrll'],
      ['accent on 2', 'rLrr lRll rLrr lRll'],
      ['accent on 3', 'rlRr lrLl rlRr lrLl'],
      ['accent on 4', 'rlrR lrlL rlrR lrlL'],
    ] as const;
    const brokeAt = (limits: 'working' | 'first year'): unknown =>
      bars(
        ({ variation, slot, cycle, kind }) => ({
          level:
            kind === 'accent'
              ? -4
              : variation === 'accent on 4' && slot % 8 === 2 && cycle < 3
                ? [-17, -16.5, -12.5][cycle]
                : -22,
        }),
        { bars: walk, cycles: 8, limits },
      )
        .filter(({ variation }) => variation === 'accent on 4')
        .slice(0, 4)
        .map((one) => one.broke);
    expect(brokeAt('working')).toEqual([[], ['leakBefore'], ['leakBefore'], []]);
    expect(brokeAt('first year')).toEqual([[], [], ['leakBefore'], []]);
  });

  it('has each hand within the limit of *not yet* of the other, in level and in time', () => {
    const uneven = bars(({ hand, bar, kind }) => ({
      level: (kind === 'accent' ? -4 : -22) - (hand === 'L' && kind !== 'accent' ? [0, 4.9, 5.1, 0][bar] : 0),
      late: hand === 'L' ? [0, 0, 0, 21][bar] : 0,
    }));
    expect(uneven.map((one) => one.broke.filter((key) => key === 'balanceSoft' || key === 'lag'))).toEqual([
      [],
      [],
      ['balanceSoft'],
      ['lag'],
    ]);
  });
});
