import * as v from 'valibot';
import type { Ms } from '../units';
import { clockMs, filled, text, whole } from './schema';

/**
 * What happened beside the strokes while a take was played, on the clock of its hits: what a teacher marked, which number
 * was worked on, and whatever went wrong. Nothing of it is graded.
 */
export type TakeEvent =
  | { readonly kind: 'mark'; readonly atMs: Ms; readonly cycle: number; readonly barInCycle: number }
  | { readonly kind: 'figure'; readonly atMs: Ms; readonly figure: string; readonly by: string }
  | { readonly kind: 'port gone' | 'port back'; readonly atMs: Ms; readonly port: string }
  | {
      readonly kind:
        | 'page hidden'
        | 'page shown'
        | 'sound device changed'
        | 'sound stopped'
        | 'sound back'
        | 'midi withdrawn'
        | 'midi allowed';
      readonly atMs: Ms;
    }
  /** `byMs`: how long the computer slept, or how far a clock was set (positive: on). */
  | { readonly kind: 'slept' | 'clock set' | 'stamps jumped'; readonly atMs: Ms; readonly byMs: Ms }
  | {
      readonly kind: 'unknown note';
      readonly atMs: Ms;
      readonly port: string;
      readonly channel: number;
      readonly note: number;
    };

/** Events of kinds that this reader doesn't know are let through and kept, as unknown keys are. */
export const takeEvents = v.array(
  v.looseObject({
    atMs: clockMs,
    kind: filled,
    cycle: v.exactOptional(whole(0, 100_000)),
    barInCycle: v.exactOptional(whole(0, 100_000)),
    figure: v.exactOptional(text),
    by: v.exactOptional(text),
    port: v.exactOptional(text),
    byMs: v.exactOptional(clockMs),
    channel: v.exactOptional(whole(1, 16)),
    note: v.exactOptional(whole(0, 127)),
  }),
  'must be a list of events',
);
