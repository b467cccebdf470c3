import { meanEstimate } from '../../grading/numbers/intervals';
import { distributionOf, madSpread, median, sampleSd } from '../../grading/numbers/statistics';
import type { LearnedDelays } from '../../sessions/learned';
import type { Rig } from '../../sessions/types';
import type { RawHit } from '../../stroke';
import type { Bpm, Ms } from '../../units';
import { halfWidth } from './cell-means';
import { surfaceFinder } from '../rig';

/** A short play-along: a stroke with each click. */
export interface DelaysState {
  /** Times at which clicks were scheduled, on the clock of the hits, evenly spaced. */
  readonly clicksMs: readonly Ms[];
  /** Stroke minus the click it belongs to, in order. */
  readonly latenessMs: readonly Ms[];
  readonly lastAtMs: Ms | null;
}

/** Clicks of a play-along: strokes enough for half the interval to be near 1 ms at a spread of 6 ms. Common practice. */
export const PLAY_ALONG_CLICKS = 72;
/** Above this tempo the delays are asked for. Our own choice, no source. */
const ASKED_ABOVE_BPM: Bpm = 120;
/** The first strokes find the click. */
const LEFT_OUT = 4;
const FEWEST = 16;
/** Strokes farther out than so many spreads are mistakes. */
const OUTLIER = 3;
/** What comes sooner after a stroke is the pad's. */
const SINGLE_MS: Ms = 100;

export function delaysAsked(clicksMs: readonly Ms[]): DelaysState {
  return { clicksMs, latenessMs: [], lastAtMs: null };
}

/** One hit further. A hit belongs to the click that it is up to a quarter of the gap before or three quarters after. */
export function nextAlong(rig: Rig): (state: DelaysState, hit: RawHit) => DelaysState {
  const surfaceOf = surfaceFinder(rig);
  return (state, hit) => {
    const { clicksMs, latenessMs, lastAtMs } = state;
    if (surfaceOf(hit) === undefined || clicksMs.length < 2) return state;
    if (lastAtMs !== null && hit.atMs - lastAtMs < SINGLE_MS) return state;
    const gapMs = (clicksMs[clicksMs.length - 1] - clicksMs[0]) / (clicksMs.length - 1);
    const index = Math.floor((hit.atMs - clicksMs[0]) / gapMs + 0.25);
    const click = clicksMs[index] as Ms | undefined;
    if (click === undefined) return state;
    return { clicksMs, latenessMs: [...latenessMs, hit.atMs - click], lastAtMs: hit.atMs };
  };
}

/** Both delays together, and what is known of each. */
export interface DelaysFound extends LearnedDelays {
  /** Mean of stroke minus scheduled click: input delay, output delay and the player's own habit in one. */
  readonly sumMs: Ms;
  readonly inputMs: Ms;
  readonly outputMs: Ms;
}

/**
 * The delays of a play-along. The sum is the mean of the lateness, the first four strokes and those over 3 spreads out left
 * out; `leftMs` is half its 90 % interval. A known output delay is taken off it; without one the sum stands as input delay,
 * which grades the same.
 * @param outputMs what the audio clock says, or the player; undefined where neither does
 * @returns undefined under 16 strokes, or where they do not follow the click (spread over an eighth of the gap)
 */
export function delaysFound(
  { clicksMs, latenessMs }: DelaysState,
  outputMs: { readonly ms: Ms; readonly from: 'audio clock' | 'by hand' } | undefined,
): DelaysFound | undefined {
  const counted = latenessMs.slice(LEFT_OUT);
  if (counted.length < FEWEST) return undefined;
  const all = distributionOf(counted);
  const [middle, spread] = [median(all) ?? 0, madSpread(all) ?? 0];
  const kept = counted.filter((late) => Math.abs(late - middle) <= Math.max(OUTLIER * spread, 1));
  const sum = meanEstimate(kept);
  const spreadMs = sampleSd(kept);
  if (sum === undefined || spreadMs === undefined) return undefined;
  if (spread > (clicksMs[1] - clicksMs[0]) / 8) return undefined;
  const known = outputMs?.ms ?? 0;
  return {
    sumMs: sum.value,
    inputMs: sum.value - known,
    outputMs: known,
    spreadMs,
    leftMs: halfWidth(sum),
    n: kept.length,
    output: outputMs?.from ?? 'together',
  };
}

/** The rig with these delays: for takes to come, never for one that runs or was played. */
export function rigWithDelays(rig: Rig, found: DelaysFound): Rig {
  const { inputMs, outputMs, spreadMs, leftMs, n, output } = found;
  return {
    ...rig,
    inputDelayMs: inputMs,
    outputDelayMs: outputMs,
    delays: { spreadMs, leftMs, n, output },
  };
}

/**
 * Whether to ask for the delays before a take.
 * @example asksForDelays({ levelLaw: 'gm2', inputDelayMs: 0, outputDelayMs: 0, surfaces: [] }, 121) // => true
 * @example asksForDelays({ levelLaw: 'gm2', inputDelayMs: 0, outputDelayMs: 0, surfaces: [] }, 120) // => false
 */
export function asksForDelays(rig: Rig, bpm: Bpm): boolean {
  const isSet = rig.delays !== undefined || rig.inputDelayMs !== 0 || rig.outputDelayMs !== 0;
  return bpm > ASKED_ABOVE_BPM && !isSet;
}

/** What was found and what it cannot separate, in words. */
export function delayWords({
  sumMs,
  inputMs,
  outputMs,
  spreadMs,
  leftMs,
  output,
}: DelaysFound): readonly string[] {
  const words = [
    `From click to time stamp: ${ms(sumMs)}, give or take ${ms(leftMs)}; single strokes spread by ${ms(spreadMs)}.`,
  ];
  if (output === 'together') {
    words.push(
      'This is kit and sound together: nothing here tells the two apart, and for grading only the sum counts.',
    );
  } else {
    const whose = output === 'audio clock' ? 'The browser' : 'You';
    words.push(`${whose} put the sound at ${ms(outputMs)}; that leaves ${ms(inputMs)} for the kit.`);
  }
  words.push(
    'Your own habit before or after the click is in it too: most players strike some milliseconds early, and that reads as a shorter delay.',
  );
  if (inputMs < 0) {
    words.push(
      'You strike farther ahead of the click than the kit is late. Play along once more, listening for the stroke and the click together.',
    );
  }
  return words;
}

const ms = (value: Ms): string => `${value < 0 ? '−' : ''}${Math.abs(value).toFixed(1)} ms`;
