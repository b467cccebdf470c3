import { length, square } from '../exact';
import type { Phrase, Tempo } from '../exercises/types';
import { limitOf } from '../grading/figures/limits';
import { studentQuantile } from '../grading/numbers/statistics';
import type { Report } from '../grading/types';
import { marginOf } from '../grading/verdict';
import type { Bpm } from '../units';
import { barStrokes, type BarStrokes } from '../take/bar-strokes';
import { barValue, barMeasures, type BarMeasure } from './bar-values';
import { serialLine } from './serial-line';

/** Where a measure leaves *holds* on the way up, and where it is back on the way down. */
interface LeavesAndReturns {
  readonly measure: BarMeasure;
  /** null: never left; null for the return: not come back, or never left. */
  readonly leavesBpm: Bpm | null;
  readonly returnsBpm: Bpm | null;
  /** True where the two lie further apart than chance has it. */
  readonly apart: boolean;
}

interface OpenCloseOpen {
  readonly fastestBpm: Bpm;
  readonly measures: readonly LeavesAndReturns[];
  /** How far the bars' played tempo strays from the one due, %: standard deviation, up and down. */
  readonly unevenPercent: number | null;
  readonly words: string;
}

/** Bars a way: fewer have no line. Common practice, no source. */
const FEWEST_A_WAY = 6;
const FALSE_SHARE = 0.05;

/**
 * One take up and down again. On each way by itself a line is laid through the bars' margins over their tempo (each bar
 * less its variation's mean), and crosses the *holds* limit where the measure leaves, or is back. So both ways are read
 * alike. Errors know that one bar leans on the next.
 * @returns undefined where the tempo is steady or only goes one way, and of fewer than six bars a way
 */
export function openCloseOpen(report: Report, phrase: Phrase, tempo: Tempo): OpenCloseOpen | undefined {
  if ('bpm' in tempo) return undefined;
  const bars = barStrokes(report, phrase, tempo);
  const top = bars.reduce((most, bar, index) => (bar.bpm > bars[most].bpm ? index : most), 0);
  const halves = [bars.slice(0, top + 1), bars.slice(top)] as const;
  if (halves.some((half) => half.length < FEWEST_A_WAY)) return undefined;
  const measures = barMeasures.map((measure) => leavesAndReturns(halves, measure, report));
  const found = { fastestBpm: bars[top].bpm, measures, unevenPercent: unevenness(bars) };
  return { ...found, words: wordsOf(found) };
}

type Way = readonly BarStrokes[];

function leavesAndReturns(
  [up, down]: readonly [Way, Way],
  measure: BarMeasure,
  report: Report,
): LeavesAndReturns {
  const [leaves, returns] = [up, down].map((half) => crossingOf(half, measure, report));
  const [leavesBpm, returnsBpm] = [leaves?.bpm ?? null, returns?.bpm ?? null];
  return { measure, leavesBpm, returnsBpm, apart: isApart(leaves, returns) };
}

interface Crossing {
  readonly bpm: Bpm;
  readonly error: number;
  readonly df: number;
}

/** Where margins fall under nought with the tempo, within the tempos played. */
function crossingOf(half: Way, measure: BarMeasure, { settings, clumped }: Report): Crossing | undefined {
  if (measure === 'scatter' && clumped === true) return undefined;
  const points = half.flatMap((bar) => {
    const value = barValue(bar, measure);
    if (value === undefined) return [];
    const gapMs = bar.strokes.reduce((sum, { slot }) => sum + slot.gapMs, 0) / bar.strokes.length;
    return [
      { x: bar.bpm, y: marginOf(value, limitOf(measure, settings, { gapMs, value })), group: bar.variation },
    ];
  });
  const line = points.length < FEWEST_A_WAY ? undefined : serialLine(points);
  if (line === undefined || line.slope >= 0) return undefined;
  if (line.slope / line.slopeError > -studentQuantile(1 - FALSE_SHARE, line.df)) return undefined;
  const bpm = -line.atNought / line.slope;
  const tempos = points.map(({ x }) => x);
  if (bpm < Math.min(...tempos) || bpm > Math.max(...tempos)) return undefined;
  return { bpm, error: line.errorAt(bpm) / -line.slope, df: line.df };
}

/** Beyond chance, all measures looked at. */
function isApart(leaves: Crossing | undefined, returns: Crossing | undefined): boolean {
  if (leaves === undefined || returns === undefined) return false;
  const error = length(leaves.error, returns.error);
  const limit = studentQuantile(1 - FALSE_SHARE / (2 * barMeasures.length), Math.min(leaves.df, returns.df));
  return Math.abs(leaves.bpm - returns.bpm) > limit * error;
}

/** A bar that takes longer than due is slower: the step from its mean deviation to the next bar's, over its length. */
function unevenness(bars: readonly BarStrokes[]): number | null {
  const means = bars.map(({ strokes }) =>
    strokes.length === 0
      ? undefined
      : strokes.reduce((sum, { overPlaceMs }) => sum + overPlaceMs, 0) / strokes.length,
  );
  const percents = bars.slice(0, -1).flatMap(({ lengthMs }, index) => {
    const [here, next] = [means[index], means[index + 1]];
    return here === undefined || next === undefined ? [] : [(-100 * (next - here)) / lengthMs];
  });
  if (percents.length < 2) return null;
  const mean = percents.reduce((sum, one) => sum + one, 0) / percents.length;
  return Math.sqrt(percents.reduce((sum, one) => sum + square(one - mean), 0) / (percents.length - 1));
}

const measureNames: Readonly<Record<BarMeasure, string>> = {
  contrast: 'Contrast',
  softness: 'Softness',
  scatter: 'Timing',
  balanceSoft: 'Balance',
};

function wordsOf({ fastestBpm, measures }: Omit<OpenCloseOpen, 'words'>): string {
  const left = measures.flatMap(({ leavesBpm, ...rest }) =>
    leavesBpm === null ? [] : [{ ...rest, leavesBpm }],
  );
  if (left.length === 0) return `Everything holds, up to ${Math.round(fastestBpm)} and down again.`;
  const first = left.reduce((earliest, next) => (next.leavesBpm < earliest.leavesBpm ? next : earliest));
  const begun = `${measureNames[first.measure]} goes first: it leaves at ${Math.round(first.leavesBpm)}`;
  if (first.returnsBpm === null) return `${begun}; where it comes back can’t be told.`;
  return first.apart
    ? `${begun} and is back at ${Math.round(first.returnsBpm)}.`
    : `${begun} and is back at about the same tempo.`;
}
