import type { Phrase, Tempo } from '../exercises/types';
import { meanEstimate, type Estimate } from '../grading/numbers/intervals';
import { dB, ms } from '../words/numbers';
import { studentQuantile } from '../grading/numbers/statistics';
import type { Report } from '../grading/types';
import type { Ms } from '../units';
import { barStrokes, type BarStrokes, type PlacedStroke } from '../take/bar-strokes';
import { barMeasures, barValue, type BarMeasure } from './bar-values';
import { serialLine } from './serial-line';

/** What changed from the first bar of a take to its last, with 90 % intervals; null where there are too few strokes. */
interface Endurance {
  /** dB louder (positive) than at first; each bar against its own variation. */
  readonly softDb: Estimate | null;
  readonly contrastDb: Estimate | null;
  /** ms more. */
  readonly scatterMs: Estimate | null;
  /** Right less left of the soft strokes, dB more than at first. */
  readonly balanceDb: Estimate | null;
  /** From where the soft strokes were louder; null where they did not rise. */
  readonly rose: { readonly afterMs: Ms; readonly bar: number; readonly db: number } | null;
  readonly words: string;
}

/** Source of all: grading.md section 7. */
const FEWEST_CYCLES = 4;
const LEAST_DB = 2;
const LEAST_MS = 3;
const FALSE_SHARE = 0.05;
const FEWEST = 8;

/**
 * What tiring does: a line through the bars' values, each less its variation's mean, over the bars of the take. Errors
 * know that one bar leans on the next. Told where it is large enough, and beyond what chance makes of all that is looked
 * at.
 * @returns undefined of fewer than four cycles
 */
export function enduranceOf(report: Report, phrase: Phrase, tempo: Tempo): Endurance | undefined {
  const bars = barStrokes(report, phrase, tempo);
  const perCycle = phrase.bars.filter(({ role }) => role === undefined || role === 'play').length;
  if (perCycle === 0 || bars.length < FEWEST_CYCLES * perCycle) return undefined;
  const lines = barMeasures.map((measure) => [measure, changeOver(bars, measure)] as const);
  const looked = lines.filter(([, line]) => line !== undefined).length;
  const of = (measure: BarMeasure): Changed | null => lines.find(([name]) => name === measure)?.[1] ?? null;
  const tells = (measure: BarMeasure): boolean => {
    const line = of(measure);
    if (line === null || Math.abs(line.change) < (measure === 'scatter' ? LEAST_MS : LEAST_DB)) return false;
    return Math.abs(line.change / line.error) > studentQuantile(1 - FALSE_SHARE / (2 * looked), line.df);
  };
  const soft = of('softness');
  const rose = soft !== null && soft.change > 0 && tells('softness') ? riseOf(bars) : null;
  const [softDb, contrastDb, scatterMs, balanceDb] = (
    ['softness', 'contrast', 'scatter', 'balanceSoft'] as const
  ).map((measure) => estimateOf(of(measure)));
  const found = { softDb, contrastDb, scatterMs, balanceDb, rose };
  return { ...found, words: enduranceWords(found, tells) };
}

interface Changed {
  readonly change: number;
  readonly error: number;
  readonly df: number;
}

function changeOver(bars: readonly BarStrokes[], measure: BarMeasure): Changed | undefined {
  const points = bars.flatMap((bar) => {
    const y = barValue(bar, measure);
    return y === undefined ? [] : [{ x: bar.index, y, group: bar.variation }];
  });
  const line = points.length < FEWEST ? undefined : serialLine(points);
  if (line === undefined) return undefined;
  const { slope, slopeError, df } = line;
  const length = bars[bars.length - 1].index - bars[0].index + 1;
  return { change: slope * length, error: slopeError * length, df };
}

function estimateOf(line: Changed | null): Estimate | null {
  if (line === null) return null;
  const reach = studentQuantile(0.95, line.df) * line.error;
  return { value: line.change, interval: [line.change - reach, line.change + reach] };
}

const isSoft = ({ slot }: PlacedStroke): boolean => slot.kind !== 'accent';

function levels(strokes: readonly PlacedStroke[], which: (stroke: PlacedStroke) => boolean): number[] {
  return strokes.filter(which).map(({ overPlaceDb }) => overPlaceDb);
}

/** The bar that parts the take best into softer before and louder after: the largest t between the two. */
function riseOf(bars: readonly BarStrokes[]): Endurance['rose'] {
  const means = bars.map(({ strokes }) => meanEstimate(levels(strokes, isSoft))?.value ?? 0);
  let best: { at: number; t: number; db: number } | undefined;
  for (let at = 2; at <= means.length - 2; at++) {
    const [before, after] = [means.slice(0, at), means.slice(at)];
    const mean = (of: readonly number[]): number => of.reduce((sum, one) => sum + one, 0) / of.length;
    const db = mean(after) - mean(before);
    const t = db * Math.sqrt((at * (means.length - at)) / means.length);
    if (best === undefined || t > best.t) best = { at, t, db };
  }
  if (best === undefined) return null;
  const { startMs } = bars[best.at];
  return { afterMs: startMs - bars[0].startMs, bar: bars[best.at].index, db: best.db };
}

function enduranceWords(
  { contrastDb, scatterMs, balanceDb, rose }: Omit<Endurance, 'words'>,
  tells: (measure: BarMeasure) => boolean,
): string {
  if (rose !== null) {
    const whose =
      balanceDb === null || !tells('balanceSoft')
        ? ''
        : `, most with the ${balanceDb.value > 0 ? 'right' : 'left'}`;
    return `Soft strokes rose ${dB(rose.db)} after ${clock(rose.afterMs)}${whose}: stop there next time.`;
  }
  const moved = [
    contrastDb !== null && contrastDb.value < 0 && tells('contrast')
      ? `contrast fell by ${dB(-contrastDb.value)}`
      : undefined,
    scatterMs !== null && scatterMs.value > 0 && tells('scatter')
      ? `scatter grew by ${ms(scatterMs.value)}`
      : undefined,
    balanceDb !== null && tells('balanceSoft')
      ? `the ${balanceDb.value > 0 ? 'right' : 'left'} came up by ${dB(Math.abs(balanceDb.value))} against the other hand`
      : undefined,
  ].filter((words) => words !== undefined);
  if (moved.length === 0) return 'The end is like the beginning.';
  return `From beginning to end ${moved.join(', ')}.`;
}

/** Minutes and seconds: 130,000 ms is 2:10. */
function clock(time: Ms): string {
  const seconds = Math.floor(time / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
