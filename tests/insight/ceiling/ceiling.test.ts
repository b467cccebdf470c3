import { describe, expect, it } from 'vitest';
import { ceilingOn } from '../../../src/insight/ceiling/ceiling';
import { changeOf } from '../../../src/insight/ceiling/change';
import { posteriorOf } from '../../../src/insight/ceiling/posterior';
import { spellsOf } from '../../../src/insight/ceiling/spells';
import { likeTempi, type TriedBars } from '../../../src/grading/tried-bars';
import { awayWords, changeWords } from '../../../src/insight/ceiling/words';
import { progressOf } from '../../../src/insight/ceiling/progress';

const row = (bpm: number, bars: number, clean: number, day = 0): TriedBars => ({ bpm, bars, clean, day });
const ceilingNow = (tried: readonly TriedBars[]) => {
  const posterior = posteriorOf(tried);
  return ceilingOn(posterior.days[1], tried, posterior);
};

describe('a ceiling', () => {
  it('lies between tempos that are clean and tempos that aren’t', () => {
    const ceiling = ceilingNow([row(84, 16, 16), row(92, 16, 15), row(100, 16, 11), row(108, 16, 2)]);
    if (ceiling.kind !== 'at') throw new Error(ceiling.kind);
    expect(ceiling.clean.value).toBeGreaterThan(92);
    expect(ceiling.clean.value).toBeLessThan(101);
  });

  it('is never over the fastest tempo with four bars or more', () => {
    expect(ceilingNow([row(72, 8, 8), row(84, 8, 8)])).toEqual({ kind: 'above', bars: 16, bpm: 84 });
    expect(ceilingNow([row(84, 8, 8), row(120, 3, 3)])).toMatchObject({ kind: 'above', bpm: 84 });
  });

  it('of bars in free time counts those of like tempo together', () => {
    const free = [100, 101, 102, 103, 104, 106, 107, 108].map((bpm) => row(bpm, 1, 1));
    expect(ceilingNow(free).kind).toBe('above');
    expect(likeTempi(free).map(({ bars }) => bars)).toEqual([4, 3, 1]);
  });

  it('is never under the slowest that was tried lately', () => {
    const fell = [
      row(110, 8, 8),
      row(110, 8, 7, 3),
      row(104, 8, 0, 28),
      row(98, 8, 0, 35),
      row(98, 8, 0, 37),
    ];
    expect(ceilingNow(fell)).toMatchObject({ kind: 'below', bpm: 98 });
  });

  it('is told from six bars on', () => {
    expect(ceilingNow([row(84, 5, 2)])).toEqual({ kind: 'too few bars', bars: 5 });
    expect(ceilingNow([row(84, 6, 3)]).kind).not.toBe('too few bars');
  });
});

describe('a change', () => {
  const changeIn = (tried: readonly TriedBars[]) => changeOf(tried, posteriorOf(tried));
  const weeks = (of: (week: number) => readonly TriedBars[]) =>
    changeIn(Array.from({ length: 8 }, (_, week) => of(week)).flat());

  it('is told of a player whose tempos that are clean go up, and down', () => {
    const at = (middle: number, day: number) => [
      row(middle * 0.92, 8, 8, day),
      row(middle, 8, 6, day),
      row(middle * 1.08, 8, 2, day),
    ];
    const up = weeks((week) => at(90 * 1.02 ** week, 7 * week));
    const down = weeks((week) => at(110 * 0.98 ** week, 7 * week));
    expect([up.kind, down.kind]).toEqual(['up', 'down']);
    if (up.kind !== 'up' || up.from.kind !== 'at' || up.to.kind !== 'at') throw new Error(up.kind);
    expect(up.to.clean.value).toBeGreaterThan(up.from.clean.value * 1.08);
  });

  it('is not told of tempos that were merely set, all of them clean', () => {
    expect(weeks((week) => [row(80 + 3 * week, 8, 8, 7 * week)]).kind).toBe('not enough');
  });

  it('never says more than what was tried: from nothing faster, or to not clean at anything', () => {
    const fell = weeks((week) =>
      week < 4 ? [row(110, 16, 16, 7 * week)] : [row(108 - 2 * week, 16, 0, 7 * week)],
    );
    if (fell.kind !== 'down') throw new Error(fell.kind);
    expect(changeWords(fell)).toBe('fell from at least 110 to at most 95 in seven weeks');
  });

  it('is not asked of under three days or two weeks', () => {
    expect(changeIn([row(84, 8, 8), row(84, 8, 1, 13), row(84, 8, 0, 13)])).toEqual({
      kind: 'not enough',
      days: 14,
      perWeek: null,
    });
  });
});

describe('a spell', () => {
  it('ends where the player is away for over three weeks', () => {
    expect(spellsOf([{ day: 0 }, { day: 21 }, { day: 43 }]).map(({ days }) => days)).toEqual([
      [0, 21],
      [43, 43],
    ]);
  });

  it('is a term at most, cut back from the newest day', () => {
    const days = Array.from({ length: 41 }, (_, week) => ({ day: week * 7 }));
    expect(spellsOf(days).map(({ days: of }) => of)).toEqual([
      [0, 42],
      [49, 161],
      [168, 280],
    ]);
  });
});

describe('a player who was away', () => {
  const walked = (bpm: number, clean: number, day: number) => ({
    variation: 'accent on 1',
    bpm,
    bars: 16,
    clean,
    day,
  });
  const before = [0, 3, 7, 10, 14].flatMap((day) => [walked(100, 16, day), walked(112, 5, day)]);
  const back = [60, 62].flatMap((day) => [walked(84, 16, day), walked(92, 4, day)]);

  it('is told by what came after, and how it stood before', () => {
    const progress = progressOf([...before, ...back]);
    expect(progress.days).toEqual([60, 62]);
    expect(progress.before).toMatchObject({ lastDay: 14, awayDays: 46, ceiling: { kind: 'at' } });
    if (progress.ceiling.kind !== 'at' || progress.before?.ceiling.kind !== 'at') throw new Error('not at');
    expect(progress.ceiling.clean.value).toBeLessThan(92);
    expect(progress.before.ceiling.clean.value).toBeGreaterThan(100);
    expect(progress.change.kind).toBe('not enough');
    expect(awayWords(progress, 63)).toMatch(
      /^Back since 1970-03-02 after seven weeks away; until 1970-01-15 it was clean up to 10\d \(\d+ to 1\d\d\)\.$/,
    );
    // six weeks after it, the absence is over
    expect(awayWords(progress, 60 + 43)).toBe('Not played for six weeks: this is as it was on 1970-03-04.');
    expect(awayWords({ ...progress, days: [60, 100] }, 60 + 43)).toBe('');
  });

  it('and isn’t back yet has no now: it is said when it was', () => {
    const progress = progressOf(before);
    expect(progress.before).toBeNull();
    expect(awayWords(progress, 35)).toBe('');
    expect(awayWords(progress, 36)).toBe('Not played for three weeks: this is as it was on 1970-01-15.');
  });
});
