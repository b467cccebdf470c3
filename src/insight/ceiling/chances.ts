import { exp, ln } from '../../exact';
import { prior } from './prior';

/**
 * Logarithms that the chances of clean bars are made of, read from a table: at x = b·ln(T/T50), a bar is clean with
 * chance (1 - λ)/(1 + eˣ) and isn't with (λ + eˣ)/(1 + eˣ). Between entries straight lines: off by 3e-6 at most.
 */
export const STEP = 0.01;
/** Beyond it either way the logarithms are straight to the last digit shown. */
export const REACH = 16;
/** Numbers an entry: ln(1 + eˣ), then ln(λ + eˣ) for each λ. */
export const WIDTH = 1 + prior.lapses.length;
export const lnLapses: readonly number[] = prior.lapses.map(({ share }) => ln(share));
export const lnCleanAtMost: readonly number[] = prior.lapses.map(({ share }) => ln(1 - share));

let made: Float64Array | undefined;

/** The table, from -REACH to REACH. */
export function chances(): Float64Array {
  made ??= tableOfLogarithms();
  return made;
}

function tableOfLogarithms(): Float64Array {
  const entries = Math.round((2 * REACH) / STEP) + 2;
  const table = new Float64Array(entries * WIDTH);
  for (let entry = 0; entry < entries; entry += 1) {
    const odds = exp(entry * STEP - REACH);
    table[entry * WIDTH] = ln(1 + odds);
    prior.lapses.forEach(({ share }, lapse) => {
      table[entry * WIDTH + 1 + lapse] = ln(share + odds);
    });
  }
  return table;
}
