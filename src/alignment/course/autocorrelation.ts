/**
 * Lag-1 autocorrelation of residuals whose mean is 0.
 * @returns 0 of fewer than three, or of residuals that are all nought
 * @example autocorrelation(Float64Array.of(1, -1, 1, -1)) // => -0.75
 */
export function autocorrelation(residuals: Float64Array): number {
  let together = 0;
  let squares = 0;
  for (let i = 0; i < residuals.length; i += 1) {
    squares += residuals[i] * residuals[i];
    if (i > 0) together += residuals[i] * residuals[i - 1];
  }
  return residuals.length < 3 || squares === 0 ? 0 : together / squares;
}

const MOST = 0.9;

/**
 * By how much a standard error grows where errors lean on each other: √((1 + ρ)/(1 − ρ)) of an AR(1) process, ρ raised
 * by (1 + 3ρ)/n (Kendall's bias of the estimate) and kept within 0 and 0.9.
 * @example leaning(Float64Array.of(1, -1, 1, -1)) // => 1
 */
export function leaning(residuals: Float64Array): number {
  const rho = autocorrelation(residuals);
  const raised = Math.min(MOST, Math.max(0, rho + (1 + 3 * rho) / residuals.length));
  return Math.sqrt((1 + raised) / (1 - raised));
}
