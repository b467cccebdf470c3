import { exp, ln, ln1p, lnGamma } from '../../exact';

/**
 * Tail areas and quantiles of the distributions behind the intervals. Pure arithmetic in a fixed order, so the same
 * argument gives the same bits everywhere. Checked against R and scipy in tests/grading/numbers/statistics.test.ts.
 */

const TINY = 1e-300;
const RELATIVE_ERROR = 1e-16;
const MOST_STEPS = 10_000;
const MOST_HALVINGS = 400;

/** 0.95 quantile of the standard normal distribution: what a 90 % interval reaches on either side. */
export const NORMAL_95 = 1.6448536269514722;

/**
 * Regularised incomplete beta function I_x(a, b): the area of Beta(a, b) below x. For a, b > 0.
 * Source: the continued fraction of Abramowitz & Stegun 26.5.8, evaluated by Lentz's method.
 */
function betaArea(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  return areaBelow(x, a, b, logBeta(a, b));
}

/**
 * P(Bin(n, p) >= k): the chance of k or more among n.
 * @example binomialTail(10, 0.5, 9) // => 0.0107421875
 */
export function binomialTail(n: number, p: number, k: number): number {
  if (k <= 0) return 1;
  if (k > n) return 0;
  return betaArea(p, k, n - k + 1);
}

/** The x with betaArea(x, a, b) = p. For a, b > 0 and p within 0–1. */
export function betaQuantile(p: number, a: number, b: number): number {
  if (p <= 0) return 0;
  if (p >= 1) return 1;
  const logB = logBeta(a, b);
  let low = 0;
  let high = 1;
  let x = a / (a + b);
  for (let step = 0; step < MOST_HALVINGS; step++) {
    const excess = areaBelow(x, a, b, logB) - p;
    if (excess === 0) return x;
    if (excess > 0) high = x;
    else low = x;
    const density = exp((a - 1) * ln(x) + (b - 1) * ln1p(-x) - logB);
    const newton = x - excess / density;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - x) <= 4e-16 * x || next === low || next === high) return next;
    x = next;
  }
  return x;
}

/**
 * Quantile of Student's t with df degrees of freedom (any number above 0; Welch's are fractions).
 * @example studentQuantile(0.95, 9) // => 1.8331
 */
export function studentQuantile(p: number, df: number): number {
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, df);
  if (df === Infinity) return normalQuantile(p);
  // t²/(df + t²) follows Beta(1/2, df/2): both tails at once.
  const share = betaQuantile(2 * p - 1, 0.5, df / 2);
  return Math.sqrt((df * share) / (1 - share));
}

/** Quantile of the standard normal distribution, by Newton from a rational start (Abramowitz & Stegun 26.2.23). */
export function normalQuantile(p: number): number {
  if (p === 0.5) return 0;
  if (p < 0.5) return -normalQuantile(1 - p);
  if (p >= 1) return Infinity;
  const upper = 1 - p;
  const t = Math.sqrt(-2 * ln(upper));
  let z = t - (2.30753 + 0.27061 * t) / (1 + t * (0.99229 + 0.04481 * t));
  for (let step = 0; step < 50; step++) {
    const move = (normalTail(z) - upper) / (exp((-z * z) / 2) / Math.sqrt(2 * Math.PI));
    z += move;
    if (Math.abs(move) <= 1e-15 * z) break;
  }
  return z;
}

/** P(Z > z) for z >= 0: series within 3 of the middle, Lentz's continued fraction beyond. */
function normalTail(z: number): number {
  const density = exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (z < 3) {
    let term = z;
    let sum = z;
    for (let k = 3; Math.abs(term) > 1e-17 * sum; k += 2) {
      term *= (z * z) / k;
      sum += term;
    }
    return 0.5 - density * sum;
  }
  let fraction = z;
  for (let k = 200; k >= 1; k--) fraction = z + k / fraction;
  return density / fraction;
}

function logBeta(a: number, b: number): number {
  return lnGamma(a) + lnGamma(b) - lnGamma(a + b);
}

function areaBelow(x: number, a: number, b: number, logB: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = exp(a * ln(x) + b * ln1p(-x) - logB);
  if (x < (a + 1) / (a + b + 2)) return (front * betaFraction(x, a, b)) / a;
  return 1 - (front * betaFraction(1 - x, b, a)) / b;
}

/** The continued fraction of the incomplete beta function, which converges fast for x < (a + 1)/(a + b + 2). */
function betaFraction(x: number, a: number, b: number): number {
  const away = (value: number): number => (Math.abs(value) < TINY ? TINY : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let result = d;
  for (let m = 1; m <= MOST_STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    result *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const factor = d * c;
    result *= factor;
    if (Math.abs(factor - 1) <= RELATIVE_ERROR * 2) break;
  }
  return result;
}
