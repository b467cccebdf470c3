import { checkedBpm } from '../exercises/tempo';
import type { Tempo } from '../exercises/types';
import type { Bpm } from '../units';

/** What the tempo does over a take: it stays, or goes to another one by the end, or there by the middle and back. */
export interface Pace {
  readonly shape: 'steady' | 'to the end' | 'there and back';
  /** Where it goes; means nothing where it stays. */
  readonly toBpm: Bpm;
}

export const paceShapes = ['steady', 'to the end', 'there and back'] as const;
export const steadyPace: Pace = { shape: 'steady', toBpm: 120 };

/** How long it is: a phrase, as far as the tempo cares. */
interface Paced {
  readonly cycles: number;
  readonly bars: readonly unknown[];
}

/**
 * The tempo of a take of a whole phrase, all its cycles.
 * @example tempoOf({ cycles: 2, bars: [{}, {}] }, 60, { shape: 'there and back', toBpm: 120 })
 * // => { ramp: [{ bar: 0, bpm: 60 }, { bar: 2, bpm: 120 }, { bar: 4, bpm: 60 }] }
 */
export function tempoOf({ cycles, bars }: Paced, bpm: Bpm, { shape, toBpm }: Pace): Tempo {
  const all = cycles * bars.length;
  switch (shape) {
    case 'steady':
      return { bpm };
    case 'to the end':
      return {
        ramp: [
          { bar: 0, bpm },
          { bar: all, bpm: toBpm },
        ],
      };
    case 'there and back':
      return {
        ramp: [
          { bar: 0, bpm },
          { bar: all / 2, bpm: toBpm },
          { bar: all, bpm },
        ],
      };
  }
}

/** The tempo a take begins with, and what it does from there; a ramp of another shape is taken for its ends. */
export function paceOf(tempo: Tempo): { readonly bpm: Bpm; readonly pace: Pace } {
  if ('bpm' in tempo) return { bpm: tempo.bpm, pace: steadyPace };
  const { ramp } = tempo;
  const [first, second = first] = ramp;
  const last = ramp[ramp.length - 1];
  if (ramp.length > 2 && last.bpm === first.bpm) {
    return { bpm: first.bpm, pace: { shape: 'there and back', toBpm: second.bpm } };
  }
  return { bpm: first.bpm, pace: { shape: 'to the end', toBpm: last.bpm } };
}

/** @throws InputError for a tempo nobody plays */
export function movedPace(pace: Pace, change: Partial<Pace>): Pace {
  const next = { ...pace, ...change };
  return { ...next, toBpm: checkedBpm(next.toBpm, 'Tempo to go to') };
}
