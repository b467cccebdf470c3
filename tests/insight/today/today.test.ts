import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../../src/exercises/phrase';
import {
  clockAt,
  clockMovedOn,
  clockStarted,
  clockWords,
  leftMs,
  moveOnWords,
} from '../../../src/insight/today/clock';
import { firstState } from '../../../src/state/state';
import { reduce } from '../../../src/state/reducer';
import { todayPlan } from '../../../src/insight/today/plan';
import { todayLengths, type TodayFacts } from '../../../src/insight/today/types';
import { graded, record } from '../history/records';

// Minutes and order: what the plan of a practice must be, by the teacher who asked for it; the shares are common practice, no source.

const nowMs = Date.parse('2026-03-10T17:00:00.000Z');
const nothing: TodayFacts = { takes: [], nowMs, eastMinutes: 0, lead: 'R', week: [], surfaces: ['Pad'] };
const kindsOf = (facts: TodayFacts) => todayPlan(20, facts).map(({ kind }) => kind);

describe('a clock', () => {
  it('started before the library is open goes on; with another player’s turn it is over', () => {
    const started = reduce(firstState, {
      kind: 'start clock',
      plan: todayPlan(20, nothing),
      dateMs: nowMs,
    });
    const open = reduce(started, { kind: 'library', change: { playerId: 'kim' } });
    expect(open.today.clock).toEqual(started.today.clock);
    expect(reduce(open, { kind: 'library', change: { playerId: 'lee' } }).today.clock).toBeNull();
  });
});

describe('the plan of a practice', () => {
  it.each(todayLengths)(
    'of %d minutes lasts that long and begins with three minutes of warm-up',
    (length) => {
      const plan = todayPlan(length, nothing);
      expect(plan.reduce((sum, { minutes }) => sum + minutes, 0)).toBe(length);
      expect(plan[0]).toMatchObject({ kind: 'warm-up', minutes: 3, opening: null });
      expect(plan.at(-1)?.kind).toBe('easy');
    },
  );

  it('goes warm-up, weakest, new, kit, easy finish; a long one rests on the way', () => {
    expect(kindsOf(nothing)).toEqual(['warm-up', 'weakest', 'new', 'kit', 'easy']);
    expect(todayPlan(40, nothing).map(({ kind }) => kind)).toContain('rest');
  });

  it('takes last week’s weakest, slower where it did not hold', () => {
    const takes = [
      record('good', { recordedAt: '2026-03-08T17:00:00.000Z', graded: graded(0.3), phraseKey: 'other' }),
      record('bad', { recordedAt: '2026-03-07T17:00:00.000Z', graded: graded(-0.6) }),
      record('worse, last month', {
        recordedAt: '2026-02-07T17:00:00.000Z',
        graded: graded(-2),
        phraseKey: 'old',
      }),
    ];
    const [, weakest] = todayPlan(20, { ...nothing, takes });
    expect(weakest.title).toBe('Single paradiddle, accent walk, 78 bpm');
    expect(weakest.why).toContain('Accent on 4 was weakest on 2026-03-07 at 84 bpm');
    expect(weakest.opening).toEqual({ kind: 'take', takeId: 'bad', bpm: 78 });
  });

  it('leaves remedies out: they are a way to a phrase, not one to plan for', () => {
    const takes = [
      record('phrase', { recordedAt: '2026-03-07T17:00:00.000Z', graded: graded(-0.2) }),
      record('remedy', {
        recordedAt: '2026-03-07T17:10:00.000Z',
        graded: graded(-0.9),
        phraseKey: 'alone',
        title: 'accent on 4, alone',
        remedy: 'Single paradiddle, accent walk: accent on 4, alone',
      }),
    ];
    const openings = todayPlan(20, { ...nothing, takes }).map(({ opening }) => opening);
    expect(openings).toContainEqual({ kind: 'take', takeId: 'phrase', bpm: 78 });
    expect(openings).not.toContainEqual(expect.objectContaining({ takeId: 'remedy' }));
  });

  it('judges a phrase by its newest take: what was mended is not the weakest any more', () => {
    const takes = [
      record('before', { recordedAt: '2026-03-07T17:00:00.000Z', graded: graded(-0.6) }),
      record('after', { recordedAt: '2026-03-09T17:00:00.000Z', graded: graded(0.5) }),
    ];
    const [, weakest] = todayPlan(20, { ...nothing, takes });
    expect(weakest.opening).toEqual({ kind: 'take', takeId: 'after', bpm: 87 });
  });

  it('calls clean what was clean, and too little too little: no variation from under three bars', () => {
    const played = (bars: number) => {
      const rows = ['accent on 1', 'accent on 4'].map((variation) => ({
        variation,
        bpm: 84,
        bars,
        held: bars,
      }));
      const takes = [
        record('a', { recordedAt: '2026-03-09T17:00:00.000Z', graded: graded(0.5, { bars: rows }) }),
      ];
      return todayPlan(20, { ...nothing, takes })[1];
    };
    expect(played(8).why).toMatch(/^It was clean at 84 bpm on 2026-03-09: a little faster/);
    expect(played(8).opening).toMatchObject({ bpm: 87 });
    expect(played(2).why).toMatch(
      /^Too few bars were played at 84 bpm on 2026-03-09 to say that it is clean\./,
    );
    expect(played(2).opening).toMatchObject({ bpm: 84 });
  });

  it('offers what most of the last day’s takes found, and not what the very last one did', () => {
    const found = (id: string, minute: number, variation: string, margin: number) =>
      record(id, {
        recordedAt: `2026-03-09T17:0${minute}:00.000Z`,
        graded: graded(margin, { weakest: { variation, measure: 'spill', margin } }),
      });
    const takes = [
      record('the day before', { recordedAt: '2026-03-08T17:00:00.000Z', graded: graded(-2) }),
      found('first', 1, 'accent on 2', -0.8),
      found('second', 2, 'accent on 2', -0.4),
      found('last', 3, 'accent on 3', 0.1),
    ];
    const [, weakest] = todayPlan(20, { ...nothing, takes });
    expect(weakest.why).toContain('Accent on 2 was weakest on 2026-03-09 at 84 bpm, by its spill');
    expect(weakest.opening).toEqual({ kind: 'take', takeId: 'last', bpm: 78 });
  });

  it('says the ceiling, and asks for no more than it where something does not hold', () => {
    const tried = (id: string, bpm: number, held: number) =>
      record(id, {
        bpm,
        recordedAt: '2026-03-09T17:00:00.000Z',
        graded: graded(-0.5, { bars: [{ variation: 'accent on 4', bpm, bars: 16, held }] }),
      });
    const takes = [tried('a', 60, 16), tried('b', 72, 8), tried('c', 84, 0)];
    const [, weakest] = todayPlan(20, { ...nothing, takes });
    expect(weakest.why).toMatch(/Ceiling tempo, in bpm: clean up to 6\d \(\d\d to \d\d\)\.$/);
    expect(weakest.title).toMatch(/, 6\d bpm$/);
  });

  it('says plainly since when nothing was played', () => {
    const takes = [record('a', { recordedAt: '2026-02-03T17:00:00.000Z', graded: graded(-0.5) })];
    const [, weakest] = todayPlan(20, { ...nothing, takes });
    expect(weakest.why).toMatch(
      /^Accent on 4 .* Not played for five weeks: this is as it was on 2026-02-03\.$/,
    );
  });

  it('finishes with what stands best, a fifth slower', () => {
    const takes = [
      record('good', {
        recordedAt: '2026-03-08T17:00:00.000Z',
        graded: graded(0.3),
        phraseKey: 'other',
        bpm: 100,
      }),
      record('bad', { recordedAt: '2026-03-07T17:00:00.000Z', graded: graded(-0.6) }),
    ];
    expect(todayPlan(20, { ...nothing, takes }).at(-1)?.opening).toEqual({
      kind: 'take',
      takeId: 'good',
      bpm: 80,
    });
  });

  it('brings something this player has no take of', () => {
    const takes = [record('a', { graded: graded(0.1) })];
    const fresh = todayPlan(20, { ...nothing, takes })[2];
    expect(fresh.title).not.toContain('Single paradiddle, accent walk, 72');
    expect(fresh.opening).toMatchObject({ kind: 'phrase', bpm: 72 });
  });

  it('has nothing new in accents off for one who walks accents, nor in what has no other bar', () => {
    const fresh = (...titles: string[]) =>
      todayPlan(20, { ...nothing, takes: titles.map((title) => record(title, { title })) })[2].title;
    expect(fresh('Single paradiddle, accent walk', 'Single paradiddle, rotations')).not.toContain(
      'paradiddle',
    );
    expect(fresh('Single paradiddle, accents off')).toBe('Single paradiddle, accent walk, 72 bpm');
  });

  it('takes the accents to the toms where the rig has them', () => {
    const kit = todayPlan(20, { ...nothing, surfaces: ['snare', 'floor tom', 'high tom'] })[3];
    expect(kit.title).toContain('accents to toms');
    expect(todayPlan(20, nothing)[3].title).toContain('left lead');
  });

  it('is the teacher’s list where there is one, its minutes shared out', () => {
    const item = (words: string) => ({ phrase: phraseNamed('Double paradiddle'), bpm: 66, words });
    const plan = todayPlan(20, { ...nothing, week: [item('Low.'), item('')] });
    expect(plan.map(({ kind, minutes }) => [kind, minutes])).toEqual([
      ['warm-up', 3],
      ['week', 8],
      ['week', 7],
      ['easy', 2],
    ]);
    expect(plan[1]).toMatchObject({ title: 'Double paradiddle, 66 bpm', why: 'Low.' });
    expect(plan[2].why).toBe('On this week’s list.');
  });
});

describe('the clock', () => {
  const plan = todayPlan(10, nothing);

  it('says when to move on, and waits for the player to do so', () => {
    const clock = clockAt(clockStarted(plan, 1000), 1000 + 179_000);
    expect(clockWords(leftMs(clock))).toBe('0:01');
    expect(moveOnWords(clock)).toBe('');
    const over = clockAt(clock, 1000 + 200_000);
    expect(over.item).toBe(0);
    expect(moveOnWords(over)).toBe('Time to move on: Single paradiddle, accent walk, 72 bpm.');
  });

  it('gives the next item its whole time', () => {
    const next = clockMovedOn(clockAt(clockStarted(plan, 0), 200_000), 200_000);
    expect(next?.item).toBe(1);
    expect(next === null ? 0 : leftMs(next)).toBe(180_000);
  });

  it('ends after the last one', () => {
    const last = { plan, item: plan.length - 1, sinceMs: 0, nowMs: 60_000 };
    expect(moveOnWords(last)).toBe('Time is up: that was today. Stop here.');
    expect(clockMovedOn(last, 60_000)).toBeNull();
  });
});
