import type { AudioSeconds, Ms } from '../units';
import { median } from '../ordered';

/** One reading of both clocks at one moment: the sample being heard, and the performance time of it. */
export interface ClockPair {
  readonly performanceMs: Ms;
  readonly audioSeconds: AudioSeconds;
}

/** What the readings say: performance time in ms less audio time in ms, for each of the last readings. */
export interface AudioClock {
  readonly offsetsMs: readonly Ms[];
  /** Their median. */
  readonly offsetMs: Ms;
}

/** Readings kept: at 25 ms a tick about a second, so a drift of 100 ppm costs 0.05 ms. */
const KEPT = 41;

/**
 * A clock with one reading more. The median of the last second stands: single readings jump by up to a render
 * buffer on some systems, and both clocks drift apart slowly. Begin anew after the audio was suspended.
 * @param clock null before the first reading
 */
export function withPair(clock: AudioClock | null, pair: ClockPair): AudioClock {
  const before = clock === null ? [] : clock.offsetsMs.slice(-(KEPT - 1));
  const offsetsMs = [...before, pair.performanceMs - pair.audioSeconds * 1000];
  return { offsetsMs, offsetMs: median(offsetsMs) ?? 0 };
}

/** The audio time that is heard at a performance time. */
export function audioSecondsAt(clock: AudioClock, performanceMs: Ms): AudioSeconds {
  return (performanceMs - clock.offsetMs) / 1000;
}
