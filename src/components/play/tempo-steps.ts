import { wholePower } from '../../exact';
import { FASTEST } from '../../exercises/tempo';
import type { Bpm } from '../../units';

const STEP = 1.05;

/**
 * Tempos to climb by, each about 5 % over the one before, in whole bpm; common practice, no source.
 * @param start the first, rounded
 * @param count how many; fewer where the next would be over 400 bpm
 * @example tempoSteps(60, 6) // => [60, 63, 66, 69, 73, 77]
 */
export function tempoSteps(start: Bpm, count: number): readonly Bpm[] {
  const steps = Array.from({ length: count }, (_, index) => Math.round(start * wholePower(STEP, index)));
  return steps
    .map((bpm, index) => Math.max(bpm, Math.round(start) + index))
    .filter((bpm, index) => index === 0 || bpm <= FASTEST);
}
