import { square } from '../exact';
import { lag1 } from '../grading/numbers/statistics';

/** A value in a row, of some group. */
interface Placed {
  readonly x: number;
  readonly y: number;
  /** What has a mean of its own, such as a variation. */
  readonly group: string;
}

/** A line through values whose errors lean on their neighbours. */
interface SerialLine {
  readonly slope: number;
  /** Value where x is nought, for a value of the mean group. */
  readonly atNought: number;
  readonly slopeError: number;
  /** Standard error of the line's height at x. */
  errorAt(x: number): number;
  readonly df: number;
}

const MOST_RHO = 0.9;

/**
 * Least squares within groups, the groups' means taken off; errors × √((1 + ρ)/(1 - ρ)), ρ the residuals' lag-1
 * autocorrelation in the order given + (1 + 3ρ)/n, within 0–0.9. Source: grading.md section 7; the correction of ρ is
 * Kendall's (1954), Biometrika 41.
 * @returns undefined where too few are left or all x of each group are one
 */
export function serialLine(points: readonly Placed[]): SerialLine | undefined {
  const n = points.length;
  const groups = new Map<string, { n: number; x: number; y: number }>();
  for (const { group, x, y } of points) {
    const sum = groups.get(group) ?? { n: 0, x: 0, y: 0 };
    groups.set(group, { n: sum.n + 1, x: sum.x + x, y: sum.y + y });
  }
  const df = n - groups.size - 1;
  if (df < 1) return undefined;
  const centred = points.map(({ group, x, y }) => {
    const sum = groups.get(group) ?? { n: 1, x, y };
    return { x: x - sum.x / sum.n, y: y - sum.y / sum.n };
  });
  const sxx = centred.reduce((sum, { x }) => sum + square(x), 0);
  if (sxx === 0) return undefined;
  const slope = centred.reduce((sum, { x, y }) => sum + x * y, 0) / sxx;
  const residuals = centred.map(({ x, y }) => y - slope * x);
  const variance = residuals.reduce((sum, one) => sum + square(one), 0) / df;
  const raw = lag1(residuals) ?? 0;
  const rho = Math.min(MOST_RHO, Math.max(0, raw + (1 + 3 * raw) / n));
  const widened = (1 + rho) / (1 - rho);
  const [meanX, meanY] = [
    points.reduce((sum, { x }) => sum + x, 0) / n,
    points.reduce((sum, { y }) => sum + y, 0) / n,
  ];
  return {
    slope,
    atNought: meanY - slope * meanX,
    slopeError: Math.sqrt((variance * widened) / sxx),
    errorAt: (x) => Math.sqrt(variance * widened * (1 / n + square(x - meanX) / sxx)),
    df,
  };
}
