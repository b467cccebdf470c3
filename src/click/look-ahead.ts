import type { Grid } from '../exercises/types';
import type { Ms } from '../units';
import { clickBeats, clicksIn, plainOrder } from './schedule';
import type { ClickBeat, ClickOrder, Timing } from './types';

/** How far ahead sounds are handed over: a page blocked for 200 ms loses none. */
const AHEAD_MS: Ms = 250;
const TICK_MS: Ms = 25;

interface LookAhead {
  start(grid: Grid, downbeatMs: Ms, order?: ClickOrder): void;
  stop(): void;
}

interface HandOver<Due> {
  /** @param due in time order, with times on the page's clock */
  start(due: readonly Due[]): void;
  stop(): void;
}

interface HandOverOptions {
  /** Called before what is due in a tick, also while nothing is. */
  readonly eachTick?: () => void;
  /** What to look ahead in addition: the delay of the audio output. */
  readonly extraMs?: () => Ms;
  /** Called once when the last one's time has come, not when it was stopped before. */
  readonly onEnd?: () => void;
}

/**
 * The clicks of a grid, each handed over once.
 * @param play called once a click, in time order
 */
export function lookAhead(
  timing: Timing,
  play: (beat: ClickBeat) => void,
  options: HandOverOptions = {},
): LookAhead {
  const clicks = handOver(timing, play, options);
  return {
    stop: () => clicks.stop(),
    start: (grid, downbeatMs, order = plainOrder) => clicks.start(clickBeats(grid, downbeatMs, order)),
  };
}

/**
 * Hands everything over once, a quarter of a second before it is due; `play` gives it its exact time to the audio or
 * MIDI clock. What is already past (the page slept) is skipped, never played late.
 * @param timing the page's clock
 */
export function handOver<Due extends { readonly atMs: Ms }>(
  timing: Timing,
  play: (due: Due) => void,
  { eachTick, extraMs, onEnd }: HandOverOptions = {},
): HandOver<Due> {
  let sleep: (() => void) | null = null;

  const stop = (): void => {
    sleep?.();
    sleep = null;
  };

  return {
    stop,
    start(due) {
      stop();
      const last = due.at(-1);
      if (last === undefined) return;
      let handedOverMs = -Infinity;
      const tick = (): void => {
        eachTick?.();
        const nowMs = timing.nowMs();
        const untilMs = nowMs + AHEAD_MS + (extraMs?.() ?? 0);
        for (const one of clicksIn(due, Math.max(handedOverMs, nowMs), untilMs)) play(one);
        handedOverMs = Math.max(handedOverMs, untilMs);
        if ((onEnd === undefined ? handedOverMs : nowMs) <= last.atMs) return;
        stop();
        onEnd?.();
      };
      sleep = timing.every(TICK_MS, tick);
      tick();
    },
  };
}
