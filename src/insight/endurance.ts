import type { Phrase, Tempo } from '../exercises/types';
import { difference, spansNought } from '../grading/difference';
import { meanEstimate, pooledSd, welchDifference, type Estimate } from '../grading/intervals';
import { dB, ms } from '../grading/number-words';
import type { Report } from '../grading/types';
import type { Ms } from '../units';
import { barStrokes, type BarStrokes, type PlacedStroke } from '../take/bar-strokes';

/** The last third of a take against its first, with 90 % intervals; null where there are too few strokes. */
interface Endurance {
  /** dB louder (positive) than at first; each stroke against its own place. */
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

/** Thirds of at least this many bars; a smaller rise is no reason to stop. Common practice, no source. */
const FEWEST_BARS = 9;
const LEAST_RISE_DB = 2;
const FEWEST = 8;

/**
 * What tiring does: the last third against the first, and the bar from which the soft strokes rose. Each stroke is held
 * against its own place over the take, so that it doesn't matter which variations fall into which third.
 * @returns undefined of fewer than nine bars
 */
export function enduranceOf(report: Report, phrase: Phrase, tempo: Tempo): Endurance | undefined {
  const bars = barStrokes(report, phrase, tempo);
  if (bars.length < FEWEST_BARS) return undefined;
  const third = Math.floor(bars.length / 3);
  const [first, last] = [bars.slice(0, third), bars.slice(-third)].map((of) =>
    of.flatMap(({ strokes }) => strokes),
  );
  const softDb = change(levels(last, isSoft), levels(first, isSoft));
  const accentDb = change(levels(last, isAccent), levels(first, isAccent));
  const contrastDb = accentDb && softDb && difference(accentDb, softDb);
  const byHand = (['R', 'L'] as const).map((hand) => {
    const own = (stroke: PlacedStroke): boolean => isSoft(stroke) && stroke.slot.hand === hand;
    return change(levels(last, own), levels(first, own));
  });
  const balanceDb = byHand[0] && byHand[1] && difference(byHand[0], byHand[1]);
  const [was, is] = [first, last].map((of) =>
    of.length < FEWEST ? undefined : pooledSd([of.map(({ overPlaceMs }) => overPlaceMs)]),
  );
  const scatterMs = was && is ? difference(is, was) : null;
  const rose = softDb !== null && softDb.value >= LEAST_RISE_DB && !spansNought(softDb) ? riseOf(bars) : null;
  const found = { softDb, contrastDb, scatterMs, balanceDb, rose };
  return { ...found, words: enduranceWords(found) };
}

const isSoft = ({ slot }: PlacedStroke): boolean => slot.kind !== 'accent';
const isAccent = ({ slot }: PlacedStroke): boolean => slot.kind === 'accent';

function levels(strokes: readonly PlacedStroke[], which: (stroke: PlacedStroke) => boolean): number[] {
  return strokes.filter(which).map(({ overPlaceDb }) => overPlaceDb);
}

function change(last: readonly number[], first: readonly number[]): Estimate | null {
  if (last.length < FEWEST || first.length < FEWEST) return null;
  return welchDifference(last, first) ?? null;
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

function enduranceWords({
  softDb,
  contrastDb,
  scatterMs,
  balanceDb,
  rose,
}: Omit<Endurance, 'words'>): string {
  if (rose !== null)
    return `Soft strokes rose ${dB(rose.db)} after ${clock(rose.afterMs)}: stop there next time.`;
  const moved = [
    tells(contrastDb) && contrastDb.value < 0 ? `contrast fell by ${dB(-contrastDb.value)}` : undefined,
    tells(softDb) && softDb.value > 0 ? `soft strokes rose by ${dB(softDb.value)}` : undefined,
    tells(scatterMs) && scatterMs.value > 0 ? `scatter grew by ${ms(scatterMs.value)}` : undefined,
    tells(balanceDb)
      ? `the ${balanceDb.value > 0 ? 'right' : 'left'} came up by ${dB(Math.abs(balanceDb.value))} against the other hand`
      : undefined,
  ].filter((words) => words !== undefined);
  if (moved.length === 0) return 'The last third is like the first.';
  return `From the first third to the last ${moved.join(', ')}.`;
}

/** A change that chance does not make, and that is not nought in words. */
function tells(estimate: Estimate | null): estimate is Estimate {
  return estimate !== null && !spansNought(estimate) && Math.abs(estimate.value) >= 0.5;
}

/** Minutes and seconds: 130,000 ms is 2:10. */
function clock(time: Ms): string {
  const seconds = Math.floor(time / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
