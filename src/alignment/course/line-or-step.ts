import { square } from '../../exact';
import type { Settings } from '../../settings';
import type { Ms } from '../../units';
import { medianInPlace } from '../../ordered';
import { leaning } from './autocorrelation';
import type { Block } from './blocks';

/** How the phase of a stretch went. */
type TimeCourse =
  | { readonly kind: 'steady' }
  /** ms later per ms. */
  | { readonly kind: 'line'; readonly slope: number }
  /** From the block with this index on, `ms` later. */
  | { readonly kind: 'step'; readonly block: number; readonly ms: Ms };

const steady: TimeCourse = { kind: 'steady' };

/**
 * **Line or step**: whether a stretch ran away from the click steadily, or moved once. A line is told where it moves by
 * 25 ms and 0.15 of the gap over the stretch and is four standard errors long, errors leaning on each other counted
 * (`leaning`); a step likewise, from six blocks on, two a side, where it leaves under three quarters of the line's squares.
 * From two cycles on less what a place in the cycle does by itself: a late variation is no step.
 * @returns steady too where half the blocks lie anywhere (median resultant under 0.5)
 */
export function lineOrStep(blocks: readonly Block[], gapMs: Ms, settings: Settings): TimeCourse {
  const n = blocks.length;
  if (n < 3) return steady;
  const resultant = medianInPlace(Float64Array.from(blocks, (block) => block.resultant)) ?? 0;
  if (resultant < settings['course.lineResultant']) return steady;
  const phases = withoutPlaces(blocks);
  const leastMs = Math.max(settings['course.lineMs'], settings['course.lineGaps'] * gapMs);
  const errors = settings['course.lineErrors'];

  const line = lineOf(blocks, phases);
  const lengthMs = blocks[n - 1].atMs - blocks[0].atMs;
  const step = n < 6 ? undefined : bestStep(phases);
  if (
    step !== undefined &&
    Math.abs(step.ms) >= leastMs &&
    Math.abs(step.ms) >= errors * step.error &&
    step.squares < settings['course.stepSquares'] * line.squares
  ) {
    return { kind: 'step', block: step.block, ms: step.ms };
  }
  const isLine =
    Math.abs(line.slope * lengthMs) >= leastMs && Math.abs(line.slope) >= errors * line.error && n > 3;
  return isLine ? { kind: 'line', slope: line.slope } : steady;
}

/** Phases less what the same half bar of the cycle does in the median, against the blocks a cycle about it. */
function withoutPlaces(blocks: readonly Block[]): Float64Array {
  const phases = Float64Array.from(blocks, ({ phaseMs }) => phaseMs);
  const places = new Map<number, number[]>();
  blocks.forEach(({ inCycle }, i) => places.set(inCycle, [...(places.get(inCycle) ?? []), i]));
  if (places.size < 2 || blocks.length < 2 * places.size) return phases;
  const slope = theilSenOfNeighbours(blocks);
  const around = Math.floor(places.size / 2);
  const apart = phases.map((phase, i) => {
    const from = Math.max(0, i - around);
    const to = Math.min(blocks.length, i + around + 1);
    const near = new Float64Array(to - from);
    for (let j = from; j < to; j += 1) near[j - from] = phases[j] - slope * (blocks[j].atMs - blocks[i].atMs);
    return phase - (medianInPlace(near) ?? phase);
  });
  const effects = [...places.values()].map((of) => ({
    of,
    effect: medianInPlace(Float64Array.from(of, (i) => apart[i])) ?? 0,
  }));
  for (const { of, effect } of effects) for (const i of of) phases[i] -= effect;
  return phases;
}

function theilSenOfNeighbours(blocks: readonly Block[]): number {
  const slopes = blocks
    .slice(1)
    .map((block, i) => (block.phaseMs - blocks[i].phaseMs) / (block.atMs - blocks[i].atMs));
  return medianInPlace(Float64Array.from(slopes)) ?? 0;
}

/** Least squares: the slope, its standard error (errors leaning on each other), and the squares left. */
export function lineOf(blocks: readonly Block[], phases: Float64Array): Line {
  const n = phases.length;
  let [meanMs, mean] = [0, 0];
  for (let i = 0; i < n; i += 1) {
    meanMs += blocks[i].atMs / n;
    mean += phases[i] / n;
  }
  let [spread, together] = [0, 0];
  for (let i = 0; i < n; i += 1) {
    spread += square(blocks[i].atMs - meanMs);
    together += (blocks[i].atMs - meanMs) * (phases[i] - mean);
  }
  const slope = together / spread;
  const left = phases.map((phase, i) => phase - mean - slope * (blocks[i].atMs - meanMs));
  const squares = left.reduce((sum, value) => sum + square(value), 0);
  return { slope, squares, error: Math.sqrt(squares / (n - 2) / spread) * leaning(left) };
}

interface Line {
  readonly slope: number;
  readonly squares: number;
  readonly error: number;
}

/** The split with the fewest squares about a mean either side, at least two blocks a side. */
function bestStep(phases: Float64Array): { block: number; ms: Ms; squares: number; error: number } {
  const n = phases.length;
  const total = phases.reduce((sum, phase) => sum + phase, 0);
  let best = { block: 2, gain: -Infinity };
  let before = 0;
  for (let i = 0; i < n; i += 1) {
    if (i >= 2 && i <= n - 2) {
      const gain = square(before) / i + square(total - before) / (n - i);
      if (gain > best.gain) best = { block: i, gain };
    }
    before += phases[i];
  }
  const { block } = best;
  const mean = (from: number, to: number): number =>
    phases.subarray(from, to).reduce((sum, phase) => sum + phase, 0) / (to - from);
  const [first, second] = [mean(0, block), mean(block, n)];
  const left = phases.map((phase, i) => phase - (i < block ? first : second));
  const squares = left.reduce((sum, value) => sum + square(value), 0);
  const error = Math.sqrt((squares / (n - 2)) * (1 / block + 1 / (n - block))) * leaning(left);
  return { block, ms: second - first, squares, error };
}
