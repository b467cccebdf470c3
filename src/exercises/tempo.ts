import { InputError } from '../errors';
import { beatMs, type Bpm, type Ms } from '../units';
import type { Tempo } from './types';
import { countWhile } from '../ordered';

const SLOWEST: Bpm = 20;
/** No phrase is played faster: bpm. */
export const FASTEST: Bpm = 400;

/**
 * A tempo that can be played: 20–400 bpm.
 * @throws InputError naming `place`
 */
export function checkedBpm(bpm: number, place = 'bpm'): Bpm {
  if (!(bpm >= SLOWEST && bpm <= FASTEST)) {
    throw new InputError(place, `must be a tempo from ${SLOWEST} to ${FASTEST} bpm`, bpm);
  }
  return bpm;
}

/** A tempo that moves is as slow as its slowest. */
export function slowestBpm(tempo: Tempo): Bpm {
  return 'bpm' in tempo ? tempo.bpm : Math.min(...tempo.ramp.map(({ bpm }) => bpm));
}

/**
 * Length of the beat that starts at a place of the take.
 * @param atBar bars from the start of the take, beats as fractions of their bar
 */
export function beatLengthMs(tempo: Tempo, atBar: number): Ms {
  if ('bpm' in tempo) return beatMs(tempo.bpm);
  const { ramp } = tempo;
  const after = firstAfter(ramp, atBar);
  if (after === 0) return beatMs(ramp[0].bpm);
  if (after === ramp.length) return beatMs(ramp[ramp.length - 1].bpm);
  const from = ramp[after - 1];
  const to = ramp[after];
  const share = (atBar - from.bar) / (to.bar - from.bar);
  return beatMs(from.bpm) + share * (beatMs(to.bpm) - beatMs(from.bpm));
}

/** The time a player kept without a click, as far as it was played. */
export interface TimePlayed {
  /** When the first bar began, on the clock of the hits. */
  readonly downbeatMs: Ms;
  /** A point a beat. */
  readonly tempo: Tempo;
}

/** The tempo a take was played at, for what asks where its bars lie: in free time the player's own. */
export function tempoPlayed(tempo: Tempo, { freeTime }: { readonly freeTime?: TimePlayed }): Tempo {
  return freeTime?.tempo ?? tempo;
}

/** Index of a ramp's first point behind a place; its length where there is none. */
function firstAfter(ramp: readonly { readonly bar: number }[], atBar: number): number {
  return countWhile(ramp.length, (index) => !(ramp[index].bar > atBar));
}
