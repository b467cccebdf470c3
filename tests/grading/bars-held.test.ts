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
describe('a bar held', () => {
  it('has nothing missed, added or in the wrong hand', () => {
    const reports = bars(({ index }) => (index === 3 ? { status: 'missed' } : { wrongHand: index === 20 }), {
      extras: [{ stroke: 0, bar: 2 }],
    });
    expect(broke(reports)).toEqual([['missed'], ['wrongHand'], ['extra'], []]);
    expect(reports.map(({ held }) => held)).toEqual([false, false, false, true]);
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
});
