import { wholePower } from '../../exact';
import type { Distribution } from './statistics';
import { binomialTail } from './quantiles';
import { countWhile } from '../../ordered';

/**
 * What the median of a sample would be if the sample were drawn again from itself, exactly: the limit of endless
 * resampling, without a random number (grading.md section 5; the odd form is Efron 1979, section 3).
 */
interface Lottery {
  /** Ascending; values apart by rounding only may both appear. */
  readonly values: Float64Array;
  /** Chance of each. They add up to 1, less what is too small to matter. */
  readonly chances: Float64Array;
}

/** Above this many strokes an even count is treated as the odd form does, rank (n + 1)/2 rounded up. */
const EVEN_FORM_UP_TO = 200;
/** A chance under this is dropped: thousands of them together are far from moving a 5 % point. */
const NEGLIGIBLE = 1e-13;
/** "Reaches" 5 % in spite of rounding. */
const ROUNDING = 1e-10;

/** The smallest resampled medians whose cumulative chance reaches `low` and `high`. For n >= 1. */
export function medianReach(d: Distribution, low: number, high: number): [number, number] {
  if (isEven(d.n)) {
    const lottery = evenMedians(d);
    return [reach(lottery, low), reach(lottery, high)];
  }
  return [orderReach(d, low), orderReach(d, high)];
}

/** The whole distribution of the resampled median. For n >= 1. */
export function resampledMedian(d: Distribution): Lottery {
  return isEven(d.n) ? evenMedians(d) : orderStatistic(d);
}

/** The smallest a - b whose cumulative chance reaches `share`, a and b drawn apart: the convolution, not written out. */
export function differenceReach(a: Lottery, b: Lottery, share: number): number {
  const last = (values: Float64Array): number => values[values.length - 1];
  let below = a.values[0] - last(b.values) - 1;
  let reaching = last(a.values) - b.values[0];
  const closeEnough = 1e-10 * Math.max(1, Math.abs(below), Math.abs(reaching));
  while (reaching - below > closeEnough) {
    const middle = (below + reaching) / 2;
    if (chanceUpTo(a, b, middle) >= share - ROUNDING) reaching = middle;
    else below = middle;
  }
  return smallestDifferenceAbove(a.values, b.values, below);
}

const isEven = (n: number): boolean => n % 2 === 0 && n <= EVEN_FORM_UP_TO;

/** For odd n (and large even): P(median <= xᵢ) = P(Bin(n, Fᵢ) >= (n + 1)/2), found by halving the list. */
function orderReach(d: Distribution, share: number): number {
  const rank = Math.ceil((d.n + 1) / 2);
  const cumulative = runningCounts(d);
  const at = countWhile(
    d.values.length - 1,
    (index) => binomialTail(d.n, cumulative[index] / d.n, rank) < share - ROUNDING,
  );
  return d.values[at];
}

function orderStatistic(d: Distribution): Lottery {
  const rank = Math.ceil((d.n + 1) / 2);
  const values: number[] = [];
  const chances: number[] = [];
  let seen = 0;
  let before = 0;
  for (let i = 0; i < d.values.length && before < 1 - NEGLIGIBLE; i++) {
    seen += d.counts[i];
    const upTo = seen === d.n ? 1 : binomialTail(d.n, seen / d.n, rank);
    if (upTo - before > NEGLIGIBLE) {
      values.push(d.values[i]);
      chances.push(upTo - before);
      before = upTo;
    }
  }
  return { values: Float64Array.from(values), chances: Float64Array.from(chances) };
}

/**
 * For even n, m = n/2: P(middle two = xᵢ, xⱼ), i < j, is C(n, m)(Fᵢᵐ - Fᵢ₋₁ᵐ)((1 - Fⱼ₋₁)ᵐ - (1 - Fⱼ)ᵐ); at i = j it is
 * P(Bin(n, Fᵢ) >= m) - P(Bin(n, Fᵢ₋₁) >= m) less the pairs of i with a larger j. The median is (xᵢ + xⱼ)/2.
 */
function evenMedians(d: Distribution): Lottery {
  const m = d.n / 2;
  const size = d.values.length;
  const cumulative = runningCounts(d);
  const share = (i: number): number => (i < 0 ? 0 : cumulative[i] / d.n);
  const combinations = choose(d.n, m);
  const lower = new Float64Array(size);
  const upper = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    lower[i] = combinations * (wholePower(share(i), m) - wholePower(share(i - 1), m));
    upper[i] = wholePower(1 - share(i - 1), m) - wholePower(1 - share(i), m);
  }
  const drawn: [value: number, chance: number][] = [];
  let before = 0;
  for (let i = 0; i < size; i++) {
    const upTo = i === size - 1 ? 1 : binomialTail(d.n, share(i), m);
    let alike = upTo - before;
    before = upTo;
    for (let j = i + 1; j < size; j++) {
      const chance = lower[i] * upper[j];
      alike -= chance;
      if (chance > NEGLIGIBLE) drawn.push([(d.values[i] + d.values[j]) / 2, chance]);
    }
    if (alike > NEGLIGIBLE) drawn.push([d.values[i], alike]);
  }
  drawn.sort((a, b) => a[0] - b[0]);
  return {
    values: Float64Array.from(drawn, ([value]) => value),
    chances: Float64Array.from(drawn, ([, chance]) => chance),
  };
}

function reach({ values, chances }: Lottery, share: number): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    sum += chances[i];
    if (sum >= share - ROUNDING) return values[i];
  }
  return values[values.length - 1];
}

/** P(a - b <= limit), walking both lists once. */
function chanceUpTo(a: Lottery, b: Lottery, limit: number): number {
  let i = 0;
  let chanceOfA = 0;
  let sum = 0;
  for (let j = 0; j < b.values.length; j++) {
    while (i < a.values.length && a.values[i] - b.values[j] <= limit) chanceOfA += a.chances[i++];
    sum += chanceOfA * b.chances[j];
  }
  return sum;
}

function smallestDifferenceAbove(a: Float64Array, b: Float64Array, limit: number): number {
  let i = 0;
  let smallest = Infinity;
  for (const taken of b) {
    while (i < a.length && a[i] - taken <= limit) i++;
    if (i < a.length) smallest = Math.min(smallest, a[i] - taken);
  }
  return smallest;
}

function runningCounts(d: Distribution): number[] {
  let seen = 0;
  return d.counts.map((count) => (seen += count));
}

/** n over k, in floating point; for n up to 200 far from overflow. */
function choose(n: number, k: number): number {
  let combinations = 1;
  for (let i = 1; i <= k; i++) combinations *= (n - k + i) / i;
  return combinations;
}
