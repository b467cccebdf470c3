import { exp, ln } from '../../exact';

/** Bars played at a tempo, and how much each weighs. Weights need not be whole. */
export interface TempoCount {
  readonly bpm: number;
  /** Weight of the bars that held, and of those that did not. */
  readonly held: number;
  readonly notHeld: number;
}

/** The chance that a bar holds at its slowest: nobody holds every bar. Source: grading.md section 7. */
const HELD_AT_MOST = 0.98;

/**
 * Log-likelihood of bars under p(T) = top/(1 + exp(b·ln(T/T50))).
 * @param lnT50 of the tempo at which half of `top` is left
 * @param b how steeply it falls
 * @example heldLikelihood([{ bpm: 1, held: 1, notHeld: 1 }], 0, 5, 1) // => -1.386
 */
export function heldLikelihood(
  counts: readonly TempoCount[],
  lnT50: number,
  b: number,
  top = HELD_AT_MOST,
): number {
  let sum = 0;
  const [lnTop, rest] = [ln(top), 1 - top];
  for (const { bpm, held, notHeld } of counts) {
    const odds = exp(Math.min(MOST_EXPONENT, b * (ln(bpm) - lnT50)));
    const whole = ln(1 + odds);
    if (held > 0) sum += held * (lnTop - whole);
    if (notHeld > 0) sum += notHeld * (ln(rest + odds) - whole);
  }
  return sum;
}

/** Past it the chance to hold is nought to every digit. */
const MOST_EXPONENT = 300;

/**
 * The tempo at which a share of bars holds.
 * @example tempoWhere(0.49, 0, 12) // => 1
 */
export function tempoWhere(share: number, lnT50: number, b: number, top = HELD_AT_MOST): number {
  return exp(lnT50 + ln(top / share - 1) / b);
}
