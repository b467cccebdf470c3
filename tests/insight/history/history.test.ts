import { describe, expect, it } from 'vitest';
import { phrasesPlayed, rigsPlayed } from '../../../src/insight/history/choices';
import { weeksPlayed } from '../../../src/insight/history/minutes';
import { playedOf } from '../../../src/insight/history/played';
import { marksOf, seriesOf, takesOf } from '../../../src/insight/history/series';
import { dateOf, dayOf, mondayOf } from '../../../src/insight/history/weeks';
import type { TakeSummary } from '../../../src/sessions/take-record';
import { graded, record } from './records';

// Dates by the calendar of 2026: 2 March is a Monday. That hands cool in two hours is common practice, no source.

const coldOf = (takes: readonly TakeSummary[]): readonly string[] =>
  playedOf(takes, 0).flatMap(({ take, cold }) => (cold ? [take.id] : []));

const at = (id: string, recordedAt: string, more = {}) => record(id, { recordedAt, ...more });

describe('days and weeks', () => {
  it.each([
    ['2026-03-02T00:00:00.000Z', '2026-03-02'],
    ['2026-03-08T23:59:59.999Z', '2026-03-02'],
    ['2026-03-09T00:00:00.000Z', '2026-03-09'],
    ['2026-01-01T12:00:00.000Z', '2025-12-29'],
  ])('%s is in the week of Monday %s', (iso, monday) => {
    expect(dateOf(mondayOf(dayOf(iso, 0)))).toBe(monday);
  });

  it('a late evening east of Greenwich is the next day', () => {
    expect(dateOf(dayOf('2026-03-02T23:30:00.000Z', 60))).toBe('2026-03-03');
  });
});

describe('practice minutes', () => {
  it('are of each week, newest first, a week without a take between them too', () => {
    const takes = [
      at('a', '2026-03-02T17:00:00.000Z'),
      at('b', '2026-03-02T17:05:00.000Z', { minutes: 2 }),
      at('c', '2026-03-04T17:00:00.000Z'),
      at('d', '2026-03-17T17:00:00.000Z', { minutes: 10 }),
    ];
    expect(weeksPlayed(playedOf(takes, 0))).toEqual([
      { from: '2026-03-16', minutes: 10, takes: 1, days: 1 },
      { from: '2026-03-09', minutes: 0, takes: 0, days: 0 },
      { from: '2026-03-02', minutes: 5, takes: 3, days: 2 },
    ]);
  });

  it('are none where nothing was played', () => {
    expect(weeksPlayed([])).toEqual([]);
  });
});

describe('cold takes', () => {
  it('are the first of a sitting; those after it are warm', () => {
    const takes = [
      at('first', '2026-03-02T17:00:00.000Z'),
      at('second', '2026-03-02T17:04:00.000Z'),
      at('after a long talk', '2026-03-02T18:50:00.000Z'),
      at('in the evening', '2026-03-02T21:00:00.000Z'),
      at('next day', '2026-03-03T17:00:00.000Z'),
    ];
    expect(coldOf([...takes].reverse())).toEqual(['first', 'in the evening', 'next day']);
  });

  it('what a take says of itself counts: after a warm-up even the first is warm', () => {
    expect(coldOf([at('a', '2026-03-02T17:00:00.000Z', { cold: false })])).toEqual([]);
  });
});

describe('what History can be of', () => {
  const takes = [
    at('a', '2026-03-02T17:00:00.000Z'),
    at('b', '2026-03-03T17:00:00.000Z', { phraseKey: 'rotations', title: 'Rotations' }),
    at('c', '2026-03-01T17:00:00.000Z', { rigId: 'kit', rigName: 'Kit' }),
  ];

  it('is every phrase, the last played first', () => {
    expect(phrasesPlayed(takes)).toEqual([
      { id: 'rotations', name: 'Rotations', takes: 1 },
      { id: 'walk', name: 'Single paradiddle, accent walk', takes: 2 },
    ]);
  });

  it('and every rig that it was played on: takes of two rigs never stand in one picture', () => {
    expect(rigsPlayed(takes, 'walk').map(({ id }) => id)).toEqual(['pad', 'kit']);
    expect(takesOf(playedOf(takes, 0), 'walk', 'pad').map(({ take }) => take.id)).toEqual(['a']);
  });

  it('two phrases of one name are told apart', () => {
    const twins = [
      at('a', '2026-03-02T17:00:00.000Z'),
      at('b', '2026-03-01T17:00:00.000Z', { phraseKey: 'x' }),
    ];
    expect(phrasesPlayed(twins).map(({ name }) => name)).toEqual([
      'Single paradiddle, accent walk',
      'Single paradiddle, accent walk (2)',
    ]);
  });
});

describe('a series', () => {
  it('has each take’s own figure with its interval, and leaves out what was not measured', () => {
    const contrast = { value: 12.5, interval: [11, 14] as const };
    const takes = [
      at('a', '2026-03-02T12:00:00.000Z', { graded: graded(-0.4, { measures: { contrast } }) }),
      at('b', '2026-03-03T12:00:00.000Z', { graded: graded(0.2) }),
      at('c', '2026-03-04T12:00:00.000Z'),
    ];
    expect(seriesOf(playedOf(takes, 0), 'contrast')).toEqual([
      { day: 20514.5, takes: 1, value: 12.5, interval: [11, 14], cold: true, of: '' },
    ]);
    expect(seriesOf(playedOf(takes, 0), 'margin').map(({ value, of }) => [value, of])).toEqual([
      [-0.4, 'accent on 4'],
      [0.2, 'accent on 4'],
    ]);
  });

  it('is marked where a week sheet and a remedy were first played to; a remedy is a phrase of its own', () => {
    const remedy = 'Single paradiddle, accent walk: accent on 4, alone';
    const takes = [
      at('a', '2026-03-02T12:00:00.000Z'),
      at('b', '2026-03-03T12:00:00.000Z', { sheetId: 's1' }),
      at('c', '2026-03-04T12:00:00.000Z', { sheetId: 's1' }),
      at('d', '2026-03-04T12:30:00.000Z', { remedy, phraseKey: 'alone' }),
      at('e', '2026-03-05T12:00:00.000Z', { remedy, phraseKey: 'alone' }),
      at('f', '2026-03-05T12:30:00.000Z', { remedy: 'Rotations: RLLR, slower', phraseKey: 'slower' }),
      at('g', '2026-03-05T12:40:00.000Z', { sheetId: 's2', phraseKey: 'rotations' }),
    ];
    const walk = { phraseKey: 'walk', title: 'Single paradiddle, accent walk' };
    expect(marksOf(playedOf(takes, 0), walk, (id) => `sheet ${id}`)).toEqual([
      { day: 20515.5, kind: 'week sheet', words: 'sheet s1' },
      { day: 20516 + 12.5 / 24, kind: 'remedy', words: 'accent on 4, alone' },
    ]);
  });
});
