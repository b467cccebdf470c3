import type { Followed } from '../../insight/history/series';
import { mondayOf } from '../../insight/history/weeks';
import { fixed, signed } from '../shared/numbers';
import type { CoursePicture, WeeksPicture } from './picture';

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
export function daysOf({ days: [first, last] }: Pick<WeeksPicture, 'days'>): DaysAxis {
  const min = mondayOf(Math.floor(first));
  const max = mondayOf(Math.floor(last)) + 7;
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
 * A day as an axis has space for.
 * @example dayWords(20780) // => 23 Nov
 */
export function dayWords(day: number, withYear = false): string {
  const date = new Date(Math.floor(day) * DAY_MS);
  const words = `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
  return withYear ? `${words} ${String(date.getUTCFullYear()).slice(2)}` : words;
}

export interface ValuesAxis {
  readonly min: number;
  readonly max: number;
  readonly step: number;
}

/** Steps to choose from, and the least range: less would fill the height with noise. */
const ROOM: Readonly<Record<Followed, { readonly steps: readonly number[]; readonly least: number }>> = {
  margin: { steps: [0.5, 1, 2], least: 1.5 },
  contrast: { steps: [2, 5, 10], least: 6 },
  balance: { steps: [1, 2, 5, 10], least: 4 },
  lag: { steps: [5, 10, 20, 50], least: 20 },
};
const MOST_STEPS = 6;

/** Space for every point with its interval and for the limit, in whole steps. */
export function valuesOf({ name, points, limit }: WeeksPicture): ValuesAxis {
  const all = points.flatMap(({ value, interval }) => [value, ...(interval ?? [])]);
  const ends = [...all, ...(limit === null ? [] : isTwoSided(name) ? [-limit, limit] : [limit])];
  const { steps, least } = ROOM[name];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const short = Math.max(0, least - (high - low)) / 2;
  const [from, to] = [low - short, high + short];
  const step = steps.find((one) => (to - from) / one <= MOST_STEPS) ?? steps[steps.length - 1];
  return { min: step * Math.floor(from / step), max: step * Math.ceil(to / step), step };
}

/** Either way from nought is as bad. */
export function isTwoSided(what: Followed): boolean {
  return what === 'balance' || what === 'lag';
}

/** Space for every tempo tried and for the ceiling's band, in whole steps. */
export function temposOf({ tried, spells }: CoursePicture): ValuesAxis {
  const ceilings = spells
    .flat()
    .flatMap(({ ceiling }) => (ceiling.kind === 'at' ? [ceiling.clean.value] : []));
  const all = [...tried.map(({ bpm }) => bpm), ...ceilings];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const padding = Math.max(MARGIN_BPM, (LEAST_BPM - (high - low)) / 2);
  const step =
    TEMPO_STEPS.find((one) => (high - low + 2 * padding) / one <= MOST_STEPS) ??
    TEMPO_STEPS[TEMPO_STEPS.length - 1];
  return {
    min: step * Math.floor((low - padding) / step),
    max: step * Math.ceil((high + padding) / step),
    step,
  };
}

const TEMPO_STEPS = [5, 10, 20, 50];
const MARGIN_BPM = 4;
const LEAST_BPM = 20;

/** A figure beside the axis. */
export function figureOn(what: Followed, value: number, fine = false): string {
  switch (what) {
    case 'margin':
      return signed(value, fine ? 2 : 1);
    case 'contrast':
      return `${fixed(value, fine ? 1 : 0)} dB`;
    case 'balance':
      return value === 0 ? 'even' : `${value > 0 ? 'R' : 'L'} +${fixed(Math.abs(value), fine ? 1 : 0)} dB`;
    case 'lag':
      return `${signed(value, 0)} ms`;
  }
}
