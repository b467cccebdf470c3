import type { Grid } from '../exercises/types';
import type { Ms } from '../units';
import { clickBeats, clicksIn } from './schedule';
import type { ClickBeat, Timing } from './types';

/** How far ahead clicks are handed over: a page blocked for 200 ms loses none. */
export const AHEAD_MS: Ms = 250;
const TICK_MS: Ms = 25;

export interface LookAhead {
  start(grid: Grid, downbeatMs: Ms): void;
  stop(): void;
}

/**
 * Hands every click over once, a quarter of a second before it is due; `play` gives it its exact time to the
 * audio or MIDI clock. A click that is already past (the page slept) is skipped, never played late.
 * @param timing the page's clock
 * @param play called once a click, in time order
 * @param eachTick called before the clicks of a tick, also while none are due
 * @param extraMs what to look ahead in addition: the delay of the audio output
 */
export function lookAhead(
  timing: Timing,
  play: (beat: ClickBeat) => void,
  eachTick: () => void = () => undefined,
  extraMs: () => Ms = () => 0,
): LookAhead {
  let sleep: (() => void) | null = null;

  const stop = (): void => {
    sleep?.();
    sleep = null;
  };

  return {
    stop,
    start(grid, downbeatMs) {
      stop();
      const clicks = clickBeats(grid, downbeatMs);
      const lastMs = clicks[clicks.length - 1].atMs;
      let handedOverMs = -Infinity;
      const tick = (): void => {
        eachTick();
        const nowMs = timing.nowMs();
        const untilMs = nowMs + AHEAD_MS + extraMs();
        for (const beat of clicksIn(clicks, Math.max(handedOverMs, nowMs), untilMs)) play(beat);
        handedOverMs = Math.max(handedOverMs, untilMs);
        if (handedOverMs > lastMs) stop();
      };
      sleep = timing.every(TICK_MS, tick);
      tick();
    },
  };
}
