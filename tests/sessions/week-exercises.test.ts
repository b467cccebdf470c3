import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { todayPlan } from '../../src/insight/today/plan';
import { weekSheetHtml } from '../../src/sessions/paper/week-page';
import { exercisesOf, exercisesWith, sheetOf, withExercises } from '../../src/sessions/week/exercises';
import {
  readWeekSheet,
  writeWeekSheet,
  type WeekExercise,
  type WeekSheet,
} from '../../src/sessions/week-sheet';

const walk = phraseNamed('Single paradiddle, accent walk');
const flams = phraseNamed('Flam accent');
const old: WeekSheet = {
  format: 'evenhand-week',
  version: 1,
  id: 'week-9',
  student: 'A. B.',
  phrase: walk,
  bpm: 84,
  limits: 'working',
  targets: [{ kind: 'tempo', bpm: 84 }],
  words: 'Low taps.',
  due: null,
  changedAt: '2026-03-02T18:00:00.000Z',
};
const second: WeekExercise = {
  phrase: flams,
  bpm: 60,
  minutes: 5,
  targets: [{ kind: 'minutes', minutes: 30 }],
  words: 'Grace notes low.',
  before: 'Shake your hands out first.',
};
const both = withExercises(old, [...exercisesOf(old), second]);

describe('a week sheet', () => {
  it('of before opens as one of a single exercise, and is written as it was', () => {
    expect(exercisesOf(readWeekSheet(writeWeekSheet(old)))).toEqual([
      { phrase: walk, bpm: 84, targets: old.targets, words: 'Low taps.' },
    ]);
    expect(withExercises(old, exercisesOf(old))).toEqual(old);
  });

  it('of several is read back whole and in order, and says that it is of version 2', () => {
    expect(both.version).toBe(2);
    expect(exercisesOf(readWeekSheet(writeWeekSheet(both)))).toEqual([...exercisesOf(old), second]);
    expect(exercisesOf(withExercises(both, [second])).map(({ bpm }) => bpm)).toEqual([60]);
  });

  it('holds six at most, and says where one is wrong', () => {
    const many = withExercises(
      old,
      Array.from({ length: 7 }, () => second),
    );
    expect(() => readWeekSheet(writeWeekSheet(many))).toThrow('more must be 5 exercises at most');
    const wrong = { ...second, targets: [{ kind: 'holds', variation: 'none such' } as const] };
    expect(() => readWeekSheet(writeWeekSheet(withExercises(old, [second, wrong])))).toThrow(
      'more[0].targets[0].variation must be a variation of the phrase',
    );
    const long = { ...second, minutes: 500 };
    expect(() => readWeekSheet(writeWeekSheet(withExercises(old, [long])))).toThrow(/^minutes must be/);
  });

  it('is written one exercise at a time, as if it were the only one', () => {
    expect(sheetOf(both, 1)).toMatchObject({ phrase: flams, bpm: 60, minutes: 5, student: 'A. B.' });
    expect(sheetOf(both, 9).phrase).toBe(flams);
  });

  it('tells which exercise a take was of: two may be of one phrase', () => {
    const three = withExercises(both, [...exercisesOf(both), { ...second, bpm: 80 }]);
    expect(exercisesWith(three, flams).map(({ bpm }) => bpm)).toEqual([60, 80]);
    expect(exercisesWith(three, walk).map(({ bpm }) => bpm)).toEqual([84]);
    expect(exercisesWith(old, flams)).toHaveLength(1);
  });

  it('prints every exercise in its order, with minutes, lines and targets', () => {
    const page = weekSheetHtml(both);
    const words = [
      'Single paradiddle, accent walk, 84 bpm',
      'Low taps.',
      'Shake your hands out first.',
      'Flam accent, 60 bpm, 5 minutes a day',
      'Grace notes low.',
      '30 minutes of playing',
    ];
    const places = words.map((one) => page.indexOf(one));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(Math.min(...places)).toBeGreaterThan(0);
  });
});

describe('Today', () => {
  const facts = { takes: [], nowMs: 0, eastMinutes: 0, lead: 'R', week: [], surfaces: [] } as const;

  it('plays a sheet’s exercises in turn, between warm-up and finish, words and targets in sight', () => {
    const plan = todayPlan(20, { ...facts, sheet: both });
    expect(plan.map(({ title, minutes }) => [title, minutes])).toEqual([
      ['Warm up: singles, then doubles', 3],
      ['Single paradiddle, accent walk, 84 bpm', 10],
      ['Flam accent, 60 bpm', 5],
      [plan[3].title, 2],
    ]);
    expect(plan[1].why).toBe('Low taps. To reach: 84 bpm, with four bars of five clean.');
    expect(plan[2].why).toBe('Shake your hands out first. Grace notes low. To reach: 30 minutes of playing.');
    expect(plan[2].opening).toEqual({ kind: 'sheet', sheet: both, index: 1 });
  });
});
