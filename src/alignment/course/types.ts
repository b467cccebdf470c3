import type { Bpm, Ms } from '../../units';

/**
 * What happened to a take as a whole, told before how well it was played. Bars and slots count from 0 within the take.
 */
export type Course =
  /** Everything comes this much later than it was struck; kept out of the offset. */
  | { readonly kind: 'latency'; readonly ms: Ms }
  /** Begun `slots` late or early; `ms` where nobody can know whether it was a latency instead. */
  | { readonly kind: 'late start' | 'early start'; readonly slots: number; readonly ms?: Ms }
  /** All of it with the other hand, or the pads are swapped. */
  | { readonly kind: 'mirror' }
  /** `slots` slots from there on were not played; in a cable's pause the port was gone. */
  | {
      readonly kind: 'pause' | 'cable';
      readonly bar: number;
      readonly slot: number;
      readonly slots: number;
      /** Bar of the phrase, from 0, from whose beginning it went on; left out where it went on in its place. */
      readonly from?: number;
    }
  /** Tempo against the click: positive is faster. `bare`: only where the click was silent. */
  | { readonly kind: 'tempo'; readonly percent: number; readonly bare?: true }
  /** In free time: bpm at the beginning and at the end. */
  | { readonly kind: 'drift'; readonly from: Bpm; readonly to: Bpm }
  /** So many times as fast as the click asks. */
  | { readonly kind: 'rate'; readonly rate: Rate }
  /** From there on everything comes `ms` later (negative: earlier) than before. */
  | { readonly kind: 'step'; readonly bar: number; readonly slot: number; readonly ms: Ms }
  /** That bar was played as another one, by its name. */
  | { readonly kind: 'other bar'; readonly bar: number; readonly slots: number; readonly played: string }
  /** Strokes that the pad or the stick doubled: their share of all strokes, and how long after (median). */
  | { readonly kind: 'doubles'; readonly share: number; readonly ms: Ms }
  /** The pad reports one velocity, or so few that levels say little. */
  | { readonly kind: 'one loudness' | 'few loudnesses' }
  | { readonly kind: 'swing'; readonly percent: number };

/** Rates that are told. */
export const rates = [2, 1 / 2, 3 / 2, 2 / 3] as const;
export type Rate = (typeof rates)[number];
