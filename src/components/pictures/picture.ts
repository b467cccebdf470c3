import { distributionOf, madSpread, median } from '../../grading/numbers/statistics';
import type { Followed, Mark, SeriesPoint } from '../../insight/history/series';
import type { CoursePoint } from '../../insight/ceiling/progress';
import type { TriedBars } from '../../grading/tried-bars';
import type { Trend } from '../../insight/history/trend';
import type { PictureName } from '../../state/reviewing';
import type { Hand } from '../../stroke';

/** Both, right first. */
export const hands: readonly Hand[] = ['R', 'L'];

/** Where some strokes stand, and how far they spread to either side; n strokes. */
export interface ChartPoint {
  readonly median: number;
  readonly spread: number;
  readonly n: number;
  /** True for what the sentence is about: drawn in the colour of what is out, and heavier. */
  readonly out: boolean;
}

/** A row of a picture: a point a hand, or one of both hands. */
export interface ChartRow {
  readonly label: string;
  readonly R: ChartPoint | null;
  readonly L: ChartPoint | null;
  /** Of both hands together. */
  readonly both?: ChartPoint | null;
  /** Where a point should lie; null is open to that side. */
  readonly band?: readonly [from: number | null, to: number | null];
}

export type ChartUnit = 'dB' | 'ms' | 'margin';

interface Titled<Name = PictureName> {
  readonly name: Name;
  /** The finding. */
  readonly title: string;
  /** What it is of: a variation, or the whole take. */
  readonly of: string;
  /** What is drawn, with its unit. */
  readonly drawn: string;
}

/** Rows of points on one axis. */
export interface RowsPicture extends Titled {
  readonly kind: 'rows';
  readonly unit: ChartUnit;
  /** A row a stroke of the bar: many rows, set close. */
  readonly byPlace: boolean;
  readonly rows: readonly ChartRow[];
}

/** Tempo over the bars of a take. */
export interface TempoPicture extends Titled {
  readonly kind: 'tempo';
  readonly points: readonly TempoPoint[];
}

export interface TempoPoint {
  /** From 1, as players count. */
  readonly bar: number;
  readonly plannedBpm: number;
  /** null where too few strokes of the bar were played. */
  readonly playedBpm: number | null;
}

/** Bars held and not held against tempo, a row a variation. */
export interface CeilingPicture extends Titled {
  readonly kind: 'ceiling';
  readonly rows: readonly CeilingRow[];
}

export interface CeilingRow {
  readonly label: string;
  /** Bars at a tempo. */
  readonly bars: readonly { readonly bpm: number; readonly held: number; readonly notHeld: number }[];
  /** Tempo at which it holds in 4 bars of 5, with its interval; null where none can be told. */
  readonly ceilingBpm: number | null;
  readonly interval: readonly [number, number] | null;
  /** `clean at 96, breaks at 104`. */
  readonly words: string;
}

/** Where pictures under one time axis stand: they share their days and marks. */
interface OverWeeks {
  /** First and last day of all of them. */
  readonly days: readonly [number, number];
  readonly marks: readonly Mark[];
  /** What will stand there, where there is nothing yet; empty else. */
  readonly empty: string;
}

/** A figure over weeks: a point a day. */
export interface WeeksPicture extends Titled<Followed>, OverWeeks {
  readonly kind: 'weeks';
  /** Cold and warm, in the order of days. */
  readonly points: readonly SeriesPoint[];
  /** Drawn where something changed beyond noise. */
  readonly trend: Trend;
  /** The *holds* limit, where the figure is judged by one. */
  readonly limit: number | null;
}

/** Clean bars by tempo over weeks, and the ceiling they make. */
export interface CoursePicture extends Titled<'course'>, OverWeeks {
  readonly kind: 'course';
  readonly tried: readonly TriedBars[];
  /** A row a spell of playing. */
  readonly spells: readonly (readonly CoursePoint[])[];
}

export type Picture = CoursePicture | RowsPicture | TempoPicture | CeilingPicture | WeeksPicture;

/** Median and 1.4826·MAD of some figures; null of none. */
export function pointOf(values: readonly number[], out = false): ChartPoint | null {
  const distribution = distributionOf(values);
  const middle = median(distribution);
  if (middle === undefined) return null;
  return { median: middle, spread: madSpread(distribution) ?? 0, n: values.length, out };
}

/** The points of a row. */
export function pointsOf({ R, L, both }: ChartRow): readonly ChartPoint[] {
  return [R, L, both ?? null].filter((point) => point !== null);
}
