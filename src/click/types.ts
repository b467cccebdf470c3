import type { ClickPlan, ClickVoice } from '../exercises/click-plan';
import type { Grid } from '../exercises/types';
import type { Ms } from '../units';

/** One click. */
export interface ClickBeat {
  readonly atMs: Ms;
  readonly voice: ClickVoice;
}

/** A clock that also wakes: the page's own is `pageTiming` of web-audio.ts. */
export interface Timing {
  /** Now, on the performance clock. */
  nowMs(): Ms;
  /** Calls `tick` again and again until the returned function is called. */
  every(ms: Ms, tick: () => void): () => void;
}

/** How a take is led in. */
export interface Lead {
  /** Bars of count-in; `auto` is one. */
  readonly countInBars: 'auto' | number;
  /** A bar more before the downbeat, with the click, to count the phrase aloud in. */
  readonly sayFirst: boolean;
}

/** All that a click is made of beside the grid. */
export interface ClickOrder {
  readonly plan: ClickPlan;
  readonly lead: Lead;
  /** The phrase's swing, 0.50–0.70: where the second of two partials clicks. */
  readonly swing: number;
}

/** The sound that leads, by whatever means it sounds. */
export interface Click {
  /**
   * Sounds the count-in and what the order says of the grid. May be called while it runs: it starts anew.
   * @param downbeatMs when the grid's first bar begins, on the performance clock; leave space for the count-in
   */
  start(grid: Grid, downbeatMs: Ms, order?: ClickOrder): void;
  /** Silence. Notes already sent to a MIDI output (a quarter of a second ahead) still sound. */
  stop(): void;
}

/** Whether the computer can be heard: not asked yet, yes, the browser holds it back, nothing to hear it by. */
export type SoundNow = 'unknown' | 'sounds' | 'held back' | 'no device';
