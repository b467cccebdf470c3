import { describe, expect, it } from 'vitest';
import { progressNow } from '../../../src/insight/history/ceilings';
import { firstTerm, termOf } from '../../../src/insight/history/term';
import { termReportHtml } from '../../../src/sessions/paper/term-report';
import { graded, record } from './records';

// A term of about 120 days: common practice, no
// source.

const bars = (n: number, held: number) => [{ variation: 'accent on 1', bpm: 84, bars: n, held }];
const on = (day: string, more = {}) => record(day, { recordedAt: `${day}T18:30:00.000Z`, ...more });

describe('a term report', () => {
  it('begins with the first take of the last 120 days, and ends with the newest', () => {
    const takes = [on('2026-06-20'), on('2025-11-03'), on('2026-03-02')];
    expect(firstTerm(takes, 'A 7', 0)).toEqual({
      student: 'A 7',
      fromDay: '2026-03-02',
      toDay: '2026-06-20',
      words: '',
    });
  });

  it('is of the takes of its days, by the player’s own clock', () => {
    const takes = [on('2026-03-02'), on('2026-03-03'), on('2026-03-04')];
    const term = { student: '', fromDay: '2026-03-03', toDay: '2026-03-04', words: '' };
    expect(termOf(takes, term, 0).takes).toBe(2);
    expect(termOf(takes, term, 6 * 60).takes).toBe(2);
    expect(termOf(takes, { ...term, toDay: '' }, 0).takes).toBe(2);
    expect(termOf(takes, { ...term, fromDay: '2026-03-05', toDay: '' }, 6 * 60).takes).toBe(1);
  });

  it('says how a phrase stands as History does: by the ceiling of its weak bar', () => {
    const rows = (day: string, bpm: number, walk: number, fourth: number) =>
      on(day, {
        bpm,
        graded: graded(0, {
          bars: [
            { variation: 'accent on 1', bpm, bars: 16, held: walk },
            { variation: 'accent on 4', bpm, bars: 16, held: fourth },
          ],
        }),
      });
    const takes = [rows('2026-03-02', 84, 16, 16), rows('2026-03-02', 96, 16, 2)];
    const { ceiling } = progressNow(takes);
    if (ceiling.kind !== 'at') throw new Error(ceiling.kind);
    const [row] = termOf(takes, { fromDay: '', toDay: '' }, 0).rows;
    expect(row).toEqual({
      title: 'Single paradiddle, accent walk',
      minutes: 3,
      steady: `${Math.floor(ceiling.clean.value)} bpm`,
      change: 'no change that can be told',
    });
    const [slow] = termOf([rows('2026-03-02', 84, 16, 16)], { fromDay: '', toDay: '' }, 0).rows;
    expect(slow.steady).toBe('84 bpm or more');
    expect(termOf([on('2026-03-02')], { fromDay: '', toDay: '' }, 0).rows[0].steady).toBe(
      'too few bars to tell',
    );
  });

  it('joins no two rigs, and says which one it is told by', () => {
    const clean = { graded: graded(0, { bars: bars(20, 20) }) };
    const takes = [
      on('2026-03-02', { ...clean, rigId: 'kit', rigName: 'Kit', bpm: 120 }),
      on('2026-03-03', clean),
      on('2026-03-04', clean),
    ];
    expect(termOf(takes, { fromDay: '', toDay: '' }, 0).rows[0].steady).toBe('84 bpm or more, on Pad');
  });

  it('says since when a phrase was not played, and how it stood before a time away', () => {
    const clean = { graded: graded(0, { bars: bars(20, 20) }) };
    const of = (takes: Parameters<typeof termOf>[0], toDay: string) =>
      termOf(takes, { fromDay: '2026-01-01', toDay }, 0).rows[0].change;
    expect(of([on('2026-01-05', clean)], '2026-02-02')).toBe('not played since 2026-01-05');
    expect(of([on('2026-01-05', clean), on('2026-03-02', clean)], '2026-03-06')).toBe(
      '84 bpm or more until 2026-01-05, then eight weeks away',
    );
  });

  it('counts a remedy’s minutes with the phrase it is for, and never its tempo', () => {
    const remedy = { title: 'accent on 4, alone', remedy: 'Accent walk: accent on 4, alone' };
    const takes = [on('2026-03-02', { ...remedy, graded: graded(0, { bars: bars(20, 20) }) })];
    expect(termOf(takes, { fromDay: '', toDay: '' }, 0).rows).toEqual([
      { title: 'Accent walk', minutes: 1.5, steady: 'too few bars to tell', change: 'not told' },
    ]);
  });

  it('of twenty phrases shows the twelve played longest, and how many more there were', () => {
    const takes = Array.from({ length: 20 }, (_, index) =>
      on('2026-03-02', { title: `phrase ${index + 1}.`, minutes: index + 1 }),
    );
    const page = termReportHtml({ student: '', words: '' }, termOf(takes, { fromDay: '', toDay: '' }, 0));
    expect(page.match(/<tr>/g)).toHaveLength(13);
    expect(page).toContain('phrase 20.');
    expect(page).not.toContain('phrase 8.');
    // 1 + 2 + … + 8.
    expect(page).toContain('And eight others, 36 min.');
  });
});
