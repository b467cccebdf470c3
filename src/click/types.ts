import type { Grid } from '../exercises/types';
import type { Ms } from '../units';

/** One click. */
export interface ClickBeat {
  readonly atMs: Ms;
  /** The first beat of a bar, of the count-in too. */
  readonly accent: boolean;
}

/** A clock that also wakes: the page's own is `pageTiming` of web-audio.ts. */
export interface Timing {
  /** Now, on the performance clock. */
  nowMs(): Ms;
  /** Calls `tick` again and again until the returned function is called. */
  every(ms: Ms, tick: () => void): () => void;
}

/** The sound that leads, by whatever means it sounds. */
export interface Click {
  /**
   * Sounds the count-in and every beat of the grid. May be called while it runs: it starts anew.
   * @param downbeatMs when the grid's first bar begins, on the performance clock; leave room for the count-in
   */
  start(grid: Grid, downbeatMs: Ms): void;
  /** Silence. Notes already sent to a MIDI output (a quarter of a second ahead) still sound. */
  stop(): void;
}
