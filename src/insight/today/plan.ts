import { exercisesOf } from '../../sessions/week/exercises';
import { targetWords } from '../../sessions/week/target-words';
import type { WeekExercise, WeekSheet } from '../../sessions/week-sheet';
import type { WeekItem } from '../../sessions/player';
import { easyItem, kitItem, newItem, weakestItem } from './items';
import type { TodayFacts, TodayItem, TodayLength } from './types';

/** Minutes of warm-up, weakest, rest, new, kit, easy: common practice, no source. */
const SHARES: Readonly<Record<TodayLength, readonly [number, number, number, number, number, number]>> = {
  10: [3, 3, 0, 2, 1, 1],
  20: [3, 7, 0, 5, 3, 2],
  40: [3, 13, 2, 10, 8, 4],
};

const warmUp = {
  kind: 'warm-up',
  title: 'Warm up: singles, then doubles',
  why: 'Low and slow, loose hands, no click. Nothing is listened to.',
  opening: null,
} as const;

const rest = {
  kind: 'rest',
  title: 'Rest',
  why: 'Put the sticks down. Shake out hands and shoulders.',
  opening: null,
} as const;

/** The plan of a day: it takes exactly `length` minutes. */
export function todayPlan(length: TodayLength, facts: TodayFacts): readonly TodayItem[] {
  const [warm, weakest, pause, fresh, kit, easy] = SHARES[length];
  const first = { ...warmUp, minutes: warm };
  const last = { ...easyItem(facts), minutes: easy };
  if (facts.sheet !== undefined) return [first, ...sheetItems(facts.sheet, length - warm - easy), last];
  if (facts.week.length > 0) return [first, ...weekItems(facts.week, length - warm - easy), last];
  return [
    first,
    { ...weakestItem(facts), minutes: weakest },
    { ...rest, minutes: pause },
    { ...newItem(facts), minutes: fresh },
    { ...kitItem(facts), minutes: kit },
    last,
  ].filter(({ minutes }) => minutes > 0);
}

/**
 * The exercises of a week sheet in their order. One that says its minutes has them, however long the day then is; the
 * others share what is left, a minute at least for each.
 */
function sheetItems(sheet: WeekSheet, minutes: number): readonly TodayItem[] {
  const exercises = exercisesOf(sheet);
  const said = exercises.reduce((sum, one) => sum + (one.minutes ?? 0), 0);
  const open = exercises.filter((one) => one.minutes === undefined).length;
  const share = Math.max(1, Math.floor((minutes - said) / Math.max(1, open)));
  return exercises.map((one, index) => ({
    kind: 'week',
    minutes: one.minutes ?? share,
    title: `${one.phrase.title}, ${one.bpm} bpm`,
    why: whyOf(one),
    opening: { kind: 'sheet', sheet, index },
  }));
}

/** The teacher's words, and what is to be reached. */
function whyOf({ before = '', words, targets }: WeekExercise): string {
  const asked = targets.length === 0 ? '' : `To reach: ${targets.map(targetWords).join('; ')}.`;
  const said = [before, words, asked].map((one) => one.trim()).filter((one) => one !== '');
  return said.length === 0 ? 'On this week’s sheet.' : said.join(' ');
}

/** The teacher's list, a minute at least for each; what is over goes to the first ones. */
function weekItems(week: readonly WeekItem[], minutes: number): readonly TodayItem[] {
  const these = week.slice(0, minutes);
  const share = Math.floor(minutes / these.length);
  const over = minutes - share * these.length;
  return these.map(({ phrase, bpm, words }, index) => ({
    kind: 'week',
    minutes: share + Number(index < over),
    title: `${phrase.title}, ${bpm} bpm`,
    why: words === '' ? 'On this week’s list.' : words,
    opening: { kind: 'phrase', phrase, name: null, bpm },
  }));
}
