import { square } from '../../exact';
import type { Cells, RobustFit } from './robust-fit';

/**
 * Covariance of robust coefficients where the errors of one cluster (a bar, say) lean on each other and those of two
 * do not: G/(G-1) · (n-1)/(n-p) · A·(Σ g·gᵀ)·A, with A = (XᵀX)⁻¹ / mean ψ', g = Xᵀψ within a cluster, ψ = w·r.
 * For plain least squares it is the sandwich of Liang & Zeger 1986 with the usual small-sample factors.
 * @param clusterOf for each cell the number of its cluster, from 0; each cell stands for one observation
 * @returns `undefined` with fewer than two clusters, or no more observations than coefficients
 */
export function clusteredCovariance(
  { rows, row }: Pick<Cells, 'rows' | 'row'>,
  fit: RobustFit,
  clusterOf: ArrayLike<number>,
  clusters: number,
): readonly Float64Array[] | undefined {
  const n = fit.residuals.length;
  const p = fit.coefficients.length;
  if (clusters < 2 || n <= p) return undefined;
  const pulls = new Float64Array(clusters * p);
  for (let i = 0; i < n; i++) {
    const psi = fit.weights[i] * fit.residuals[i];
    const x = rows[row[i]];
    for (let k = 0; k < p; k++) pulls[clusterOf[i] * p + k] += x[k] * psi;
  }
  // Each cluster's pull on the coefficients; their squares summed are the covariance.
  const covariance = Array.from({ length: p }, () => new Float64Array(p));
  const factor = ((clusters / (clusters - 1)) * (n - 1)) / (n - p) / square(fit.meanSlope);
  const move = new Float64Array(p);
  for (let g = 0; g < clusters; g++) {
    for (let a = 0; a < p; a++) {
      move[a] = 0;
      for (let b = 0; b < p; b++) move[a] += fit.inverse[a][b] * pulls[g * p + b];
    }
    for (let a = 0; a < p; a++) for (let b = 0; b < p; b++) covariance[a][b] += factor * move[a] * move[b];
  }
  return covariance;
}

/** Variance of a sum of coefficients, each taken `by` times. */
export function varianceOfSum(covariance: readonly Float64Array[], by: ArrayLike<number>): number {
  let sum = 0;
  for (let a = 0; a < covariance.length; a++) {
    for (let b = 0; b < covariance.length; b++) sum += by[a] * by[b] * covariance[a][b];
  }
  return Math.max(0, sum);
}
