import { median } from '../../ordered';
import type { SeriesPoint } from './series';

/** More points than these in a row only hide each other. */
const MOST_POINTS = 60;

/**
 * Days that stand for one point: one, and more where takes reach over many months.
 * @example daysAPoint([0, 59]) // => 1
 * @example daysAPoint([0, 365]) // => 7
 */
export function daysAPoint(days: readonly number[]): number {
  if (days.length === 0) return 1;
  const first = days.reduce((least, day) => Math.min(least, day), Infinity);
  const last = days.reduce((most, day) => Math.max(most, day), -Infinity);
  return Math.max(1, Math.ceil((last - first + 1) / MOST_POINTS));
}

/**
 * One point a day, cold and warm takes apart: takes of one day lean on each other, and a trend would take them for so
 * many witnesses. Value, ends of the interval, and time of day are medians of the takes'; an interval only where each
 * take has one. In the order of days.
 */
export function byDay(points: readonly SeriesPoint[]): readonly SeriesPoint[] {
  const width = daysAPoint(points.map(({ day }) => day));
  const groups = new Map<number, SeriesPoint[]>();
  for (const point of points) {
    const key = 2 * Math.floor(Math.floor(point.day) / width) + Number(point.cold);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [point]);
    else group.push(point);
  }
  return [...groups.values()].map(together).sort((a, b) => a.day - b.day);
}

function together(points: readonly SeriesPoint[]): SeriesPoint {
  const [first] = points;
  if (points.length === 1) return first;
  const middle = (values: readonly number[]): number => median(values) ?? first.value;
  const ends = points.flatMap(({ interval }) => (interval === null ? [] : [interval]));
  return {
    day: middle(points.map(({ day }) => day)),
    takes: points.reduce((sum, { takes }) => sum + takes, 0),
    value: middle(points.map(({ value }) => value)),
    interval:
      ends.length < points.length
        ? null
        : [middle(ends.map(([low]) => low)), middle(ends.map(([, high]) => high))],
    cold: first.cold,
    of: first.of === '' ? '' : [...new Set(points.map(({ of }) => of))].join(', '),
  };
}
