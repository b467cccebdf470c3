import type { Followed } from '../../insight/history/series';
import { mondayOf } from '../../insight/history/weeks';
import { fixed, signed } from '../shared/numbers';
import type { WeeksPicture } from './picture';

interface DaysAxis {
  readonly min: number;
  readonly max: number;
  readonly mondays: readonly number[];
  /** Every how many of them is named. */
  readonly every: number;
  words(day: number): string;
}

const DAY_MS = 86_400_000;
const MOST_NAMES = 6;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** From the Monday before the first point to the end of the last one's week. */
export function daysOf({ points, marks }: WeeksPicture): DaysAxis {
  const all = [...points, ...marks].map(({ day }) => day);
  const min = mondayOf(Math.floor(Math.min(...all)));
  const max = mondayOf(Math.floor(Math.max(...all))) + 7;
  const mondays = Array.from({ length: Math.round((max - min) / 7) }, (_, index) => min + 7 * index);
  const years = new Set([min, max - 1].map((day) => new Date(day * DAY_MS).getUTCFullYear())).size > 1;
  return {
    min,
    max,
    mondays,
    every: Math.ceil(mondays.length / MOST_NAMES),
    words: (day) => dayWords(day, years),
  };
}

/**
 * A day as an axis has room for.
 * @example dayWords(20780) // => 23 Nov
 */
export function dayWords(day: number, withYear = false): string {
  const date = new Date(Math.floor(day) * DAY_MS);
  const words = `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
  return withYear ? `${words} ${String(date.getUTCFullYear()).slice(2)}` : words;
}

interface ValuesAxis {
  readonly min: number;
  readonly max: number;
  readonly step: number;
}

/** Steps to choose from, and the least range: less would fill the height with noise. */
const ROOM: Readonly<Record<Followed, { readonly steps: readonly number[]; readonly least: number }>> = {
  ceiling: { steps: [5, 10, 20, 50], least: 20 },
  margin: { steps: [0.5, 1, 2], least: 1.5 },
  contrast: { steps: [2, 5, 10], least: 6 },
  balance: { steps: [1, 2, 5, 10], least: 4 },
};
const MOST_STEPS = 6;

/** Room for every point with its interval and for the limit, in whole steps. */
export function valuesOf({ name, points, limit }: WeeksPicture): ValuesAxis {
  const all = points.flatMap(({ value, interval }) => [value, ...(interval ?? [])]);
  const ends = [...all, ...(limit === null ? [] : name === 'balance' ? [-limit, limit] : [limit])];
  const { steps, least } = ROOM[name];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const short = Math.max(0, least - (high - low)) / 2;
  const [from, to] = [low - short, high + short];
  const step = steps.find((one) => (to - from) / one <= MOST_STEPS) ?? steps[steps.length - 1];
  return { min: step * Math.floor(from / step), max: step * Math.ceil(to / step), step };
}

/** A figure beside the axis. */
export function figureOn(what: Followed, value: number): string {
  switch (what) {
    case 'ceiling':
      return `${fixed(value, 0)} bpm`;
    case 'margin':
      return signed(value, 1);
    case 'contrast':
      return `${fixed(value, 0)} dB`;
    case 'balance':
      return value === 0 ? 'even' : `${value > 0 ? 'R' : 'L'} +${fixed(Math.abs(value), 0)} dB`;
  }
}
