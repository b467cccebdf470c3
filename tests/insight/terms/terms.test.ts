import { describe, expect, it } from 'vitest';
import { ceilingLines, ceilingsOver } from '../../../src/cli/advice';
import { historyShown } from '../../../src/insight/history/shown';
import { notedTogether } from '../../../src/insight/noted';
import { awayWords } from '../../../src/insight/ceiling/words';
import { dayOf } from '../../../src/insight/history/weeks';
import { termOf } from '../../../src/insight/history/term';
import { todayPlan } from '../../../src/insight/today/plan';
import { coursePicture } from '../../../src/components/pictures/course';
import { firstHistory } from '../../../src/state/state';
import { courses, recordsOf, studentTakes } from './students';

const TODAY = '2026-03-06T17:00:00.000Z';

function told(course: (typeof courses)[number]) {
  const takes = studentTakes(course);
  const records = recordsOf(takes);
  const shown = historyShown(records, firstHistory, () => '', 0);
  if (shown === undefined) throw new Error('nothing shown');
  const shared = { marks: [], days: [0, 1] as const };
  const facts = {
    takes: records,
    nowMs: Date.parse(TODAY),
    eastMinutes: 0,
    lead: 'R' as const,
    week: [],
    surfaces: [],
  };
  const plan = todayPlan(20, facts);
  return {
    plan,
    history: `${awayWords(shown.progress, dayOf(TODAY, 0))} ${coursePicture(shown.course, shown.progress, shared).title}`,
    today: plan[1].why,
    note: notedTogether(takes, TODAY.slice(0, 10)).at(-1)?.standing,
    term: termOf(records, { fromDay: '2026-01-05', toDay: TODAY.slice(0, 10) }, 0).rows[0],
    lines: ceilingLines(
      ceilingsOver(takes.map(({ take, report }) => ({ file: take.id, take, report }))),
      TODAY,
    ),
  };
}
/** `clean up to 96 (92 to 100)` as it stands in a text. */
const CEILING = /clean up to (\d+) \(\d+ to \d+\)/;
const bpmIn = (text: string, pattern: RegExp): number => Number(pattern.exec(text)?.[1]);

// What each student can play is known: the model player leaves strokes out accordingly (students.ts).
describe('a term of a student', () => {
  const all = Object.fromEntries(courses.map((course) => [course, told(course)]));

  it.each(courses)(
    'who is %s reads alike in History, Today, note, term report and command line',
    (course) => {
      const { history, today, note, term, lines } = all[course];
      const [ceiling] = CEILING.exec(history.slice(history.indexOf('Ceiling tempo'))) ?? ['none'];
      for (const text of [history, today, note ?? '', lines[1]]) expect(text).toContain(ceiling);
      expect(term.steady).toBe(`${bpmIn(ceiling, CEILING)} bpm`);
    },
  );

  it('who rises by a quarter from 84', () => {
    const { history, today, note, term, lines } = all.rising;
    const rose = /rose from (\d+) to \d+ in eight weeks/;
    const [words] = rose.exec(history) ?? ['none'];
    for (const text of [today, note ?? '', lines[1]]) expect(text).toContain(words);
    expect(bpmIn(history, rose)).toBeGreaterThan(78);
    expect(bpmIn(history, rose)).toBeLessThan(92);
    expect(bpmIn(history, CEILING)).toBeGreaterThan(96);
    expect(bpmIn(history, CEILING)).toBeLessThan(112);
    expect(term.change).toBe(`up from ${bpmIn(history, rose)} bpm`);
  });

  it('who falls by a fifth from 112', () => {
    const { history, today, note, term, lines } = all.falling;
    const fell = /fell from (\d+) to \d+ in eight weeks/;
    const [words] = fell.exec(history) ?? ['none'];
    for (const text of [today, note ?? '', lines[1]]) expect(text).toContain(words);
    expect(bpmIn(history, fell)).toBeGreaterThan(104);
    expect(bpmIn(history, fell)).toBeLessThan(120);
    expect(bpmIn(history, CEILING)).toBeGreaterThan(83);
    expect(bpmIn(history, CEILING)).toBeLessThan(96);
    expect(term.change).toBe(`down from ${bpmIn(history, fell)} bpm`);
  });

  it('who rests since January', () => {
    const { history, today, note, term, lines } = all.resting;
    const rests = 'Not played for five weeks: this is as it was on 2026-01-30.';
    for (const text of [history, today, note ?? '', lines.join('\n')]) expect(text).toContain(rests);
    expect(history).toContain('not enough to tell a change');
    expect(term.change).toBe('not played since 2026-01-30');
    expect(lines.join('\n')).not.toMatch(/rose|fell/);
  });

  it('who returns after four weeks, from 108 to 88', () => {
    const { history, today, note, term, lines } = all.returning;
    const back =
      /Back since 2026-02-20 after four weeks away; until 2026-01-23 it was clean up to (\d+) \(\d+ to \d+\)\./;
    const [words] = back.exec(history) ?? ['none'];
    for (const text of [today, note ?? '', lines.join('\n')]) expect(text).toContain(words);
    expect(term.change).toBe(`${bpmIn(history, back)} bpm until 2026-01-23, then four weeks away`);
    const now = bpmIn(lines[1], CEILING);
    expect(now).toBeGreaterThan(78);
    expect(now).toBeLessThan(96);
    expect(bpmIn(history, back)).toBeGreaterThan(100);
  });

  it('is never sent faster by Today than four bars of five were clean', () => {
    for (const course of courses) {
      const { today, plan, lines } = all[course];
      const bpm = bpmIn(plan[1].title, /(\d+) bpm$/);
      expect(bpm, today).toBeLessThanOrEqual(1.03 * bpmIn(lines[1], CEILING));
    }
  });
});
