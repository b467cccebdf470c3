import { square } from '../exact';
import type { Phrase, Tempo } from '../exercises/types';
import { limitOf } from '../grading/limits';
import { distributionOf, median } from '../grading/statistics';
import type { Report } from '../grading/types';
import { bandOf, marginOf } from '../grading/verdict';
import type { Bpm } from '../units';
import { barStrokes, type BarStrokes } from '../take/bar-strokes';

/** Where a measure leaves *holds* on the way up, and where it is back on the way down. */
interface LeavesAndReturns {
  readonly measure: 'contrast' | 'softness' | 'scatter' | 'balanceSoft';
  /** null: never left; null for the return: not come back, or never left. */
  readonly leavesBpm: Bpm | null;
  readonly returnsBpm: Bpm | null;
}

interface OpenCloseOpen {
  readonly fastestBpm: Bpm;
  readonly measures: readonly LeavesAndReturns[];
  /** How far the bars' played tempo strays from the one due, %: standard deviation, up and down. */
  readonly unevenPercent: number | null;
  readonly words: string;
}

/** Bars that are judged together: one alone has too few strokes. Common practice, no source. */
const WINDOW = 4;
const FEWEST_BARS = 12;

/**
 * One take up and down again. Each measure is judged over four bars at a time, by its value against the *holds* limit;
 * it has left where two such stretches in a row are out.
 * @returns undefined where the tempo is steady or only goes one way, and of fewer than 12 bars
 */
export function openCloseOpen(report: Report, phrase: Phrase, tempo: Tempo): OpenCloseOpen | undefined {
  if ('bpm' in tempo) return undefined;
  const bars = barStrokes(report, phrase, tempo);
  if (bars.length < FEWEST_BARS) return undefined;
  const top = bars.reduce((most, bar, index) => (bar.bpm > bars[most].bpm ? index : most), 0);
  if (top < WINDOW || top > bars.length - 1 - WINDOW) return undefined;
  const fastestBpm = bars[top].bpm;
  const measures = names.map((measure) => leavesAndReturns(bars, top, measure, report));
  const found = { fastestBpm, measures, unevenPercent: unevenness(bars) };
  return { ...found, words: wordsOf(found) };
}

const names = ['contrast', 'softness', 'scatter', 'balanceSoft'] as const;
type Name = (typeof names)[number];

function leavesAndReturns(
  bars: readonly BarStrokes[],
  top: number,
  measure: Name,
  report: Report,
): LeavesAndReturns {
  const out = bars
    .slice(0, bars.length - WINDOW + 1)
    .map((_, start) => isOut(bars.slice(start, start + WINDOW), measure, report));
  const leaves = out.findIndex((one, start) => one && out[start + 1] === true);
  if (leaves < 0) return { measure, leavesBpm: null, returnsBpm: null };
  // back for good: no stretch after it is out
  const lastOut = out.lastIndexOf(true);
  const back = lastOut + 1 < out.length && lastOut + 1 + WINDOW > top ? lastOut + WINDOW : undefined;
  return {
    measure,
    leavesBpm: bars[Math.min(leaves, bars.length - 1)].bpm,
    returnsBpm: back === undefined ? null : bars[Math.min(back, bars.length - 1)].bpm,
  };
}

function isOut(
  bars: readonly BarStrokes[],
  measure: Name,
  { settings, clumped }: Report,
): boolean | undefined {
  const strokes = bars.flatMap((bar) => bar.strokes);
  const levels = (which: (kind: string, hand: string) => boolean): number | undefined =>
    median(
      distributionOf(strokes.filter(({ slot }) => which(slot.kind, slot.hand)).map(({ levelDb }) => levelDb)),
    );
  const soft = levels((kind) => kind !== 'accent');
  const valueOf = (): number | undefined => {
    switch (measure) {
      case 'contrast': {
        const accent = levels((kind) => kind === 'accent');
        return accent === undefined || soft === undefined ? undefined : accent - soft;
      }
      case 'softness':
        return soft;
      case 'balanceSoft': {
        const [right, left] = (['R', 'L'] as const).map((due) =>
          levels((kind, hand) => kind !== 'accent' && hand === due),
        );
        return right === undefined || left === undefined ? undefined : right - left;
      }
      case 'scatter': {
        if (strokes.length < WINDOW || clumped === true) return undefined;
        // a slow sway of a bar as a whole is the tempo's, not the strokes'
        const squares = bars.map(({ strokes: of }) => {
          const mean = of.reduce((sum, { overPlaceMs }) => sum + overPlaceMs, 0) / Math.max(1, of.length);
          return of.reduce((sum, { overPlaceMs }) => sum + square(overPlaceMs - mean), 0);
        });
        return Math.sqrt(
          squares.reduce((sum, one) => sum + one, 0) / Math.max(1, strokes.length - bars.length),
        );
      }
    }
  };
  const value = valueOf();
  if (value === undefined) return undefined;
  const gapMs = strokes.reduce((sum, { slot }) => sum + slot.gapMs, 0) / strokes.length;
  return bandOf(marginOf(value, limitOf(measure, settings, { gapMs }))) !== 'holds';
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

const said: Readonly<Record<Name, string>> = {
  contrast: 'Contrast',
  softness: 'Softness',
  scatter: 'Timing',
  balanceSoft: 'Balance',
};

function wordsOf({ fastestBpm, measures }: Omit<OpenCloseOpen, 'words'>): string {
  const left = measures.flatMap(({ measure, leavesBpm, returnsBpm }) =>
    leavesBpm === null ? [] : [{ measure, leavesBpm, returnsBpm }],
  );
  if (left.length === 0) return `Everything holds, up to ${Math.round(fastestBpm)} and down again.`;
  const first = left.reduce((earliest, next) => (next.leavesBpm < earliest.leavesBpm ? next : earliest));
  const back =
    first.returnsBpm === null ? 'and does not come back' : `and is back at ${Math.round(first.returnsBpm)}`;
  return `${said[first.measure]} goes first: it leaves at ${Math.round(first.leavesBpm)} ${back}.`;
}
