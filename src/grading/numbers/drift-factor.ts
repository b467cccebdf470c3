import { square } from '../../exact';

/**
 * How much the squared error of a standard deviation grows because neighbouring residuals lean on each other (a slow
 * drift): D = 1 + 2·Σ (1 - k/(M+1))·ρ_k², k = 1…M. ρ_k is the autocorrelation at k steps. 1 for errors that don't.
 * Source: Bartlett 1946 (the variance of a variance), its sum tapered as Newey & West 1987 do.
 * @param residuals in order, about their mean; 0 where one is missing
 * @param furthest M, in steps
 * @example driftFactor(Float64Array.of(1, -1, 1, -1), 1) // => 1.5625
 */
export function driftFactor(residuals: Float64Array, furthest: number): number {
  const squares = products(residuals, 0);
  if (squares === 0) return 1;
  let sum = 0;
  for (let k = 1; k <= Math.min(furthest, residuals.length - 1); k++) {
    sum += (1 - k / (furthest + 1)) * square(products(residuals, k) / squares);
  }
  return 1 + 2 * sum;
}

function products(residuals: Float64Array, step: number): number {
  let sum = 0;
  for (let i = step; i < residuals.length; i++) sum += residuals[i] * residuals[i - step];
  return sum;
}
