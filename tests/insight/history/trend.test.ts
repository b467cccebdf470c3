import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstHistory } from '../../../src/state/state';
import { progressNow, triedIn } from '../../../src/insight/history/ceilings';
import { byDay, daysAPoint } from '../../../src/insight/history/days';
import type { SeriesPoint } from '../../../src/insight/history/series';
import { historyShown } from '../../../src/insight/history/shown';
import { trendOf } from '../../../src/insight/history/trend';
import { besideWords, slopeWords, trendWords } from '../../../src/insight/history/trend-words';
import type { BarsHeld } from '../../../src/sessions/take-record';
import { graded, record } from './records';

// Slopes and intervals are those of scipy.stats.theilslopes (tests/grading/numbers/theil-sen.test.ts); how few points may
// tell a trend is counted: of n points in random order 2 of n! go one way throughout.

const point = (day: number, value: number, more: Partial<SeriesPoint> = {}): SeriesPoint => {
  return { day, value, takes: 1, interval: null, cold: false, of: '', ...more };
};

describe('a trend', () => {
  it('is told with its slope a week: a dB a day is 7 dB a week', () => {
    const points = [0, 2, 4, 7].map((day) => point(day, 10 + day));
    expect(trendOf(points)).toEqual({
      kind: 'known',
      change: 'up',
      days: [0, 7],
      from: 10,
      to: 17,
      perWeek: 7,
      interval: [7, 7],
      points: 4,
    });
  });

  it('is none where the interval of its slope holds nought', () => {
    const points = [8, 11, 9, 10, 11, 8.5, 9.5].map((value, index) => point(3 * index, value));
    expect(trendOf(points)).toMatchObject({ kind: 'known', change: 'none' });
  });

  it('a flat line is no change', () => {
    expect(trendOf([0, 3, 6, 9].map((day) => point(day, 12)))).toMatchObject({ change: 'none', from: 12 });
  });

  it.each([
    ['three points', [0, 7, 14]],
    ['four points in six days', [0, 2, 4, 6]],
    ['none', []],
  ])('%s are too few', (_, days) => {
    expect(trendOf(days.map((day) => point(day, day))).kind).toBe('too few');
  });

  it('one wild day does not bend it', () => {
    const points = [0, 3, 6, 9, 12, 15, 18].map((day) => point(day, day === 9 ? 60 : day));
    expect(trendOf(points)).toMatchObject({ change: 'up', perWeek: 7 });
  });

  it('turned upside down it goes the other way', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 4, maxLength: 12 }), (values) => {
        const [up, down] = [1, -1].map((sign) => trendOf(values.map((one, i) => point(3 * i, sign * one))));
        if (up.kind !== 'known' || down.kind !== 'known') return up.kind === down.kind;
        const turned = { up: 'down', down: 'up', none: 'none' } as const;
        return down.change === turned[up.change] && Math.abs(down.perWeek + up.perWeek) < 1e-9;
      }),
    );
  });
});

describe('trends in words', () => {
  const rising = trendOf([0, 7, 14, 21].map((day) => point(day, 8 + (2 * day) / 7)));
  const noisy = trendOf([10, 12, 9, 11, 12, 9.5].map((value, index) => point(5 * index, value)));

  it('say from where to where, in what time, how much a week and how sure', () => {
    expect(trendWords('contrast', rising)).toBe('Contrast rose from 8.0 dB to 14.0 dB in three weeks');
    expect(slopeWords('contrast', rising)).toBe('+2.0 dB a week, 90 % from +2.0 to +2.0');
    expect(slopeWords('margin', trendOf([]))).toBe('');
  });

  it('say no change beyond noise when so', () => {
    expect(trendWords('contrast', noisy, 'cold')).toMatch(
      /^Contrast of cold takes: no change beyond noise in four weeks, about 10\.\d dB$/,
    );
  });

  it('balance says which hand is louder', () => {
    const mended = trendOf([0, 7, 14, 21].map((day) => point(day, 3 - day / 7)));
    expect(trendWords('balance', mended)).toMatch(/went from right louder by 3\.0 dB to even in three weeks/);
  });

  it('lag says which hand is late', () => {
    const mended = trendOf([0, 7, 14, 21].map((day) => point(day, 12 - (4 * day) / 7)));
    expect(trendWords('lag', mended)).toMatch(/went from right late by 12 ms to together in three weeks/);
  });

  it('cold takes are told beside warm ones, where there are enough', () => {
    expect(besideWords('contrast', rising)).toBe('of cold takes from 8.0 dB to 14.0 dB');
    expect(besideWords('contrast', null)).toBe('');
  });

  it('few days are said to be few', () => {
    expect(trendWords('margin', trendOf([point(0, 1)]))).toBe(
      'Weakest margin: four days of takes over a week or more tell a change, there is one day yet',
    );
  });
});

describe('points of a day', () => {
  it('are one, cold and warm apart, at the median', () => {
    const points = [
      point(1.2, 8, { cold: true }),
      point(1.3, 10),
      point(1.4, 14),
      point(1.5, 12),
      point(2.1, 9),
    ];
    expect(byDay(points).map(({ day, value, takes, cold }) => [day, value, takes, cold])).toEqual([
      [1.2, 8, 1, true],
      [1.4, 12, 3, false],
      [2.1, 9, 1, false],
    ]);
  });

  it('are taken together over several days where there are years of them: 60 points at most for a kind', () => {
    const years = Array.from({ length: 2000 }, (_, day) => point(day, 1));
    expect(daysAPoint(years.map(({ day }) => day))).toBe(34);
    expect(byDay(years).length).toBeLessThanOrEqual(61);
  });
});

const bars = (bpm: number, n: number, held: number, variation = 'accent on 1'): BarsHeld => {
  return { variation, bpm, bars: n, held };
};
const played = (id: string, day: string, rows: readonly BarsHeld[]) =>
  record(id, { recordedAt: `${day}T12:00:00.000Z`, graded: graded(0, { bars: rows }) });

describe('how a phrase stands', () => {
  it('is its weakest variation’s ceiling, each told by its own bars', () => {
    const takes = [
      played('a', '2026-03-02', [bars(80, 8, 8), bars(80, 8, 8, 'accent on 2')]),
      played('b', '2026-03-04', [bars(100, 8, 8), bars(100, 8, 0, 'accent on 2')]),
    ];
    const { ceiling, weakest, variations } = progressNow(takes);
    expect([...variations.keys()]).toEqual(['accent on 1', 'accent on 2']);
    expect(weakest).toBe('accent on 2');
    expect(variations.get('accent on 1')?.ceiling).toMatchObject({ kind: 'above', bpm: 100 });
    if (ceiling.kind !== 'at') throw new Error(ceiling.kind);
    expect(ceiling.clean.value).toBeGreaterThan(80);
    expect(ceiling.clean.value).toBeLessThan(100);
  });

  it('is told by what was played since the last absence of over three weeks', () => {
    const takes = [
      played('before', '2026-01-05', [bars(120, 16, 16)]),
      played('after', '2026-03-02', [bars(80, 16, 16)]),
    ];
    expect(progressNow(takes).ceiling).toMatchObject({ kind: 'above', bpm: 80 });
    expect(triedIn(takes).map(({ day }) => day)).toEqual([20458, 20514]);
  });
});

describe('what History shows', () => {
  const view = firstHistory;
  const month = Array.from({ length: 8 }, (_, index) => {
    const day = String(2 + 3 * index).padStart(2, '0');
    const measures = { contrast: { value: 8 + index / 2, interval: null } };
    return [
      record(`cold ${index}`, {
        recordedAt: `2026-03-${day}T12:00:00.000Z`,
        graded: graded(-0.5, { measures: { contrast: { value: 8, interval: null } } }),
      }),
      record(`warm ${index}`, {
        recordedAt: `2026-03-${day}T12:10:00.000Z`,
        graded: graded(-0.5 + index / 10, { measures }),
      }),
    ];
  }).flat();

  it('tells warm takes from cold ones: the trend is of the warm, and the cold have their own', () => {
    const contrast = historyShown(month, view, () => '', 0)?.lines.find(({ what }) => what === 'contrast');
    expect(contrast).toMatchObject({ kind: 'warm', trend: { change: 'up' }, coldTrend: { change: 'none' } });
  });

  it('never joins two rigs', () => {
    const other = month.map((take) => ({ ...take, id: `k ${take.id}`, rigId: 'kit', rigName: 'Kit' }));
    const shown = historyShown([...month, ...other], { ...view, rigId: 'kit' }, () => '', 0);
    expect(shown).toMatchObject({ takes: 16, rig: { id: 'kit' } });
    expect(shown?.rigs).toHaveLength(2);
  });

  it('is nothing where nothing was played', () => {
    expect(historyShown([], view, () => '', 0)).toBeUndefined();
  });
});
