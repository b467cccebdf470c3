import { InputError } from '../errors';
import { beatMs, type Bpm, type Ms } from '../units';
import type { Tempo } from './types';

const SLOWEST: Bpm = 20;
const FASTEST: Bpm = 400;

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

/**
 * Length of the beat that starts at a place of the take.
 * @param atBar bars from the start of the take, beats as fractions of their bar
 */
export function beatLengthMs(tempo: Tempo, atBar: number): Ms {
  if ('bpm' in tempo) return beatMs(tempo.bpm);
  const { ramp } = tempo;
  const after = ramp.findIndex((point) => point.bar > atBar);
  if (after === 0) return beatMs(ramp[0].bpm);
  if (after < 0) return beatMs(ramp[ramp.length - 1].bpm);
  const from = ramp[after - 1];
  const to = ramp[after];
  const share = (atBar - from.bar) / (to.bar - from.bar);
  return beatMs(from.bpm) + share * (beatMs(to.bpm) - beatMs(from.bpm));
}
