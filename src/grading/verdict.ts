import type { SettingKey, Settings } from '../settings';
import type { Estimate } from './numbers/intervals';
import type { Limit } from './figures/limit';
import type { Band, Figure, VariationBand } from './figures/figure';

const HALF = 0.5;
const NARROWEST = 1e-9;

/**
 * Where a value stands: +1 at the ideal and better, 0 at the *holds* limit, -1 at the *not yet* limit, straight lines
 * between and beyond. Two-sided limits go by absolute value. No unit.
 * @example marginOf(2, { ideal: 0, holds: 2, notYet: 5, twoSided: false }) // => 0
 * @example marginOf(-3.5, { ideal: 0, holds: 2, notYet: 5, twoSided: true }) // => -0.5
 */
export function marginOf(value: number, limit: Limit): number {
  const { ideal, holds, notYet } = limit;
  const worse = notYet >= holds ? 1 : -1;
  const beyond = worse * ((limit.twoSided ? Math.abs(value) : value) - holds);
  if (beyond === 0) return 0;
  if (beyond > 0) return -beyond / Math.max(Math.abs(notYet - holds), NARROWEST);
  return Math.min(1, -beyond / Math.max(Math.abs(holds - ideal), NARROWEST));
}

/**
 * The margin with half the benefit of the doubt: the mean of the value's margin and that of the interval's end nearer
 * the ideal; the ideal itself where the interval of a two-sided measure spans it.
 */
export function supportedMargin({ value, interval }: Estimate, limit: Limit): number {
  const [low, high] = interval;
  const nearer = spansIdeal(interval, limit) ? 1 : Math.max(marginOf(low, limit), marginOf(high, limit));
  return HALF * (marginOf(value, limit) + nearer);
}

/** A two-sided measure's interval with its ideal inside. */
function spansIdeal([low, high]: Estimate['interval'], { twoSided, ideal }: Limit): boolean {
  return twoSided && low <= ideal && ideal <= high;
}

/** True of the three bands that a figure stands in; the others say why it stands in none. */
export const isJudged = (band: VariationBand): boolean =>
  band === 'holds' || band === 'close' || band === 'not yet';

/** True where something is out. */
export const isFault = (band: VariationBand | undefined): boolean => band === 'close' || band === 'not yet';

/** *holds* from 0 up, *not yet* under -1, *close* between. */
export function bandOf(margin: number): Band {
  if (margin >= 0) return 'holds';
  return margin < -1 ? 'not yet' : 'close';
}

/**
 * A figure with its verdict. *Sure* where each group has strokes enough and both ends of the interval lie in the band,
 * and all between them: an interval from far on one side of the ideal to far on the other is sure of nothing.
 */
export function judged(estimate: Estimate, n: readonly number[], limit: Limit, settings: Settings): Figure {
  const supported = supportedMargin(estimate, limit);
  const band = bandOf(supported);
  const isWhole = band === 'holds' || !spansIdeal(estimate.interval, limit);
  const ends = estimate.interval.map((end) => marginOf(end, limit));
  const isSaid = isWhole && n.every((group) => group >= settings['few.sure']);
  const sure = isSaid && ends.every((end) => bandOf(end) === band);
  const isOut = !sure && isSaid && band !== 'holds' && ends.every((end) => end < 0);
  return {
    ...plain(estimate, n),
    margin: marginOf(estimate.value, limit),
    supported,
    band,
    sure,
    ...(isOut ? { surelyOut: true as const } : {}),
  };
}

/** A figure shown without a verdict. */
export function plain({ value, interval }: Estimate, n: readonly number[]): Figure {
  return { value, interval, n };
}

/** A figure with too few strokes, or one that the phrase or MIDI cannot tell. */
export function unjudged(band: 'too few strokes' | 'not measured', n: readonly number[]): Figure {
  return { value: null, interval: null, n, margin: null, supported: null, band, sure: false };
}

/** The setting that says how many strokes, gaps or changes each group must have for a verdict. */
export type Fewest = Extract<SettingKey, `few.${string}`>;

/** The verdict of an estimate, or *too few strokes* where a group has under `fewest` or no interval can be given. */
export function judgedIfEnough(
  estimate: () => Estimate | undefined,
  n: readonly number[],
  fewest: Fewest,
  limit: () => Limit,
  settings: Settings,
): Figure {
  const found = n.every((count) => count >= settings[fewest]) ? estimate() : undefined;
  return found === undefined ? unjudged('too few strokes', n) : judged(found, n, limit(), settings);
}

/** The same without a verdict. */
export function plainIfEnough(
  estimate: () => Estimate | undefined,
  n: readonly number[],
  fewest: number,
): Figure {
  const found = n.every((count) => count >= fewest) ? estimate() : undefined;
  return found === undefined ? unjudged('too few strokes', n) : plain(found, n);
}
