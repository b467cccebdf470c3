import type { Take } from '../../sessions/types';
import type { Bpm } from '../../units';

/** A take as a thing to play again at another, steady tempo. */
export function takeWithTempo(take: Take, bpm: Bpm): Take {
  return { ...take, tempo: { bpm } };
}
