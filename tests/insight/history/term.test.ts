import { describe, expect, it } from 'vitest';
import { firstTerm, termTakes } from '../../../src/insight/history/term';
import { termReportHtml, termTakeOf } from '../../../src/sessions/paper/term-report';
import { graded, record } from './records';

// "Steady" is four bars of five, as a ceiling is told (grading.md section 7); a term of about 120 days: common practice, no
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
    expect(termTakes(takes, term, 0)).toHaveLength(2);
    expect(termTakes(takes, term, 6 * 60)).toHaveLength(2);
    expect(termTakes(takes, { ...term, toDay: '' }, 0)).toHaveLength(2);
    expect(termTakes(takes, { ...term, fromDay: '2026-03-05', toDay: '' }, 6 * 60)).toHaveLength(1);
  });

  it('says steady where four bars of five held', () => {
    expect(termTakeOf(on('2026-03-02', { graded: graded(0, { bars: bars(20, 16) }) })).held).toBe(true);
    expect(termTakeOf(on('2026-03-02', { graded: graded(0, { bars: bars(20, 15) }) })).held).toBe(false);
    expect(termTakeOf(on('2026-03-02')).held).toBe(false);
  });

  it('counts a remedy’s minutes with the phrase it is for, and never its tempo', () => {
    const remedy = { title: 'accent on 4, alone', remedy: 'Accent walk: accent on 4, alone' };
    const told = termTakeOf(on('2026-03-02', { ...remedy, graded: graded(0, { bars: bars(20, 20) }) }));
    expect(told).toMatchObject({ title: 'Accent walk', held: false, minutes: 1.5 });
  });

  it('of twenty phrases shows the twelve played longest, and how many more there were', () => {
    const takes = Array.from({ length: 20 }, (_, index) =>
      termTakeOf(on('2026-03-02', { title: `phrase ${index + 1}.`, minutes: index + 1 })),
    );
    const page = termReportHtml({ student: '', words: '' }, takes);
    expect(page.match(/<tr>/g)).toHaveLength(13);
    expect(page).toContain('phrase 20.');
    expect(page).not.toContain('phrase 8.');
    // 1 + 2 + … + 8.
    expect(page).toContain('And eight others, 36 min.');
  });
});
