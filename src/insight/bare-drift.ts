import { bareBars } from '../exercises/click-plan';
import { spansNought } from '../grading/numbers/difference';
import { meanEstimate, type Estimate } from '../grading/numbers/intervals';
import { ms } from '../words/numbers';
import type { Report } from '../grading/types';
import type { Take } from '../sessions/types';
import { barStrokes } from '../take/bar-strokes';

/** How far the time moved while the click was silent. */
interface BareDrift {
  /** Stretches of bare bars that could be told. */
  readonly stretches: number;
  /**
   * Mean over the stretches, ms, with its 90 % interval: strokes of a stretch's last bar less those of the bar before it.
   * Negative: the time ran ahead. Null under two stretches.
   */
  readonly movedMs: Estimate | null;
  readonly words: string;
}

/** A bar with fewer strokes has no place of its own in time. Common practice, no source. */
const FEWEST = 4;
/** Less than this nobody hears at the click's return: two thirds of a just noticeable shift (Friberg & Sundberg 1995). */
const LEAST_MS = 4;

/** @returns undefined where no bar was bare, or the take does not fit its grid */
export function bareDriftOf(
  report: Report,
  { phrase, tempo, clicks }: Pick<Take, 'phrase' | 'tempo' | 'clicks'>,
): BareDrift | undefined {
  if (clicks === undefined || clicks.bare === null || report.clumped === true || !report.fits)
    return undefined;
  const bare = bareBars(
    clicks.bare,
    report.bars.map(({ role }) => (role === 'listen' || role === 'say' ? role : 'play')),
  );
  const means = new Map(
    barStrokes(report, phrase, tempo).flatMap(({ index, strokes }) => {
      const sum = strokes.reduce((total, { deviationMs }) => total + deviationMs, 0);
      return strokes.length < FEWEST ? [] : [[index, sum / strokes.length] as const];
    }),
  );
  const moved = bare.flatMap((isBare, bar) => {
    const endsHere = isBare && bare[bar + 1] !== true;
    if (!endsHere) return [];
    const [before, last] = [means.get(bare.lastIndexOf(false, bar)), means.get(bar)];
    return before === undefined || last === undefined ? [] : [last - before];
  });
  const movedMs = meanEstimate(moved) ?? null;
  return { stretches: moved.length, movedMs, words: wordsOf(moved.length, movedMs) };
}

function wordsOf(stretches: number, moved: Estimate | null): string {
  if (moved === null) return 'Too few bare bars to tell how far the time moved in them.';
  const { value, interval } = moved;
  if (spansNought(moved) || Math.abs(value) < LEAST_MS)
    return `In ${stretches} stretches of bare bars the time stayed: ${ms(value)} on average, inside the noise or under what is heard.`;
  const [low, high] = interval.map(Math.abs).sort((a, b) => a - b);
  return `In bare bars the time ran ${value < 0 ? 'ahead' : 'behind'}: ${ms(Math.abs(value))} by the last bar of each stretch (90 %: ${ms(low)} to ${ms(high)}).`;
}
