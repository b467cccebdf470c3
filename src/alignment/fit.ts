import { cos, length, sin } from '../exact';
import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import { bpmOfBeat, type Bpm, type Ms } from '../units';
import { blockResultant } from './block-resultant';
import { nearestDeviations, type Targets } from './targets';
import type { Misfit } from './types';

interface FitInput {
  readonly grid: Grid;
  readonly targets: Targets;
  /** Strokes that are no echoes. */
  readonly at: Float64Array;
  /** For each stroke the slot it answers, or −1. */
  readonly slotOf: Int32Array;
  readonly offsetMs: Ms;
  /** Slots of the grid, without those that were not played. */
  readonly slotsDue: number;
  /** Paired slots and strokes, echoes that filled a slot counted; slipped ones are paired. */
  readonly slotsPaired: number;
  readonly strokesPaired: number;
  readonly strokes: number;
}

/**
 * **Does not fit the grid**, or null. Of `fit.fewestStrokes` strokes or more: another subdivision or tempo where the
 * mean resultant length of the deviations modulo the gap is under max(0.25, 1.73/√n); swung where the mean deviations
 * by place in the beat range over more than 0.25 gap and explain over half the variance. At any number: unpaired where
 * under 60 % of the slots or of the strokes are paired.
 *
 * Another subdivision or tempo too where under nine tenths are paired and the half bars' median resultant is under 0.4: five
 * strokes for four leave a rest of resultant over a whole take. Where nearly all is paired, it is a hand or a wide scatter
 * that spreads the half bars, and that is graded.
 *
 * A take that swings so far that its second strokes lie half a gap late has no resultant either; where nine tenths of
 * slots and strokes (`fit.wellPaired`) are paired all the same, swung is the reason named.
 */
export function misfitOf(input: FitInput, settings: Settings): Misfit | null {
  const n = input.at.length;
  if (n >= settings['fit.fewestStrokes'] && input.targets.count > 0) {
    const least = Math.max(settings['fit.leastResultant'], settings['fit.resultantFactor'] / Math.sqrt(n));
    const wellPaired = pairedShare(input) >= settings['fit.wellPaired'];
    const scattered =
      resultantOfDeviations(input.targets, input.at, n, input.offsetMs) < least ||
      (!wellPaired && blocksOf(input) < settings['fit.leastBlocks']);
    if ((!scattered || wellPaired) && isSwung(input, settings)) return { reason: 'swung' };
    if (scattered) {
      const tempoBpm = otherTempo(input, settings);
      return tempoBpm === undefined ? { reason: 'subdivision' } : { reason: 'tempo', tempoBpm };
    }
  }
  return pairedShare(input) < settings['fit.paired'] ? { reason: 'unpaired' } : null;
}

/** The smaller of the shares of slots and of strokes that are paired. */
function pairedShare(input: FitInput): number {
  if (input.slotsDue === 0 || input.strokes === 0) return 0;
  return Math.min(input.slotsPaired / input.slotsDue, input.strokesPaired / input.strokes);
}

/**
 * Mean resultant length of angles 2π·d, d in gaps: 1 where all strokes lie alike in their gap, near 0 where they lie
 * anywhere. Source: circular statistics, common practice.
 */
export function resultantLength(gaps: Float64Array, count: number = gaps.length): number {
  let cosines = 0;
  let sines = 0;
  for (let i = 0; i < count; i++) {
    const angle = 2 * Math.PI * gaps[i];
    cosines += cos(angle);
    sines += sin(angle);
  }
  return length(cosines, sines) / count;
}

/** @returns 1 where no half bar has strokes enough to say */
function blocksOf({ grid, targets, at, offsetMs }: FitInput): number {
  const gaps = new Float64Array(at.length);
  const slotOf = new Int32Array(at.length);
  nearestDeviations(targets, at, at.length, offsetMs, gaps, slotOf);
  return blockResultant(grid, gaps, slotOf) ?? 1;
}

function resultantOfDeviations(targets: Targets, at: Float64Array, count: number, offsetMs: number): number {
  const deviations = new Float64Array(count);
  nearestDeviations(targets, at, count, offsetMs, deviations);
  return resultantLength(deviations);
}

/** Places are told apart by the partials of their beat too: the second of two is not the second of four. */
const PLACES_A_BEAT = 64;

function isSwung(input: FitInput, settings: Settings): boolean {
  const { grid, targets } = input;
  const count: number[] = [];
  const sum: number[] = [];
  const squares: number[] = [];
  for (let i = 0; i < input.slotOf.length; i++) {
    const index = input.slotOf[i];
    if (index < 0) continue;
    const slot = grid.slots[index];
    const partials = grid.bars[slot.bar].partialsPerBeat[slot.beat] ?? 0;
    const place = partials * PLACES_A_BEAT + slot.partialInBeat;
    const d = (input.at[i] - input.offsetMs - targets.at[index]) / targets.gap[index];
    count[place] = (count[place] ?? 0) + 1;
    sum[place] = (sum[place] ?? 0) + d;
    squares[place] = (squares[place] ?? 0) + d * d;
  }
  let n = 0;
  let total = 0;
  let totalSquares = 0;
  let between = 0;
  let least = Infinity;
  let most = -Infinity;
  count.forEach((strokes, place) => {
    if (strokes < settings['fit.swungStrokes']) return;
    const mean = sum[place] / strokes;
    least = Math.min(least, mean);
    most = Math.max(most, mean);
    n += strokes;
    total += sum[place];
    totalSquares += squares[place];
    between += strokes * mean * mean;
  });
  if (!(most - least > settings['fit.swungGaps'])) return false;
  const shared = (total * total) / n;
  return between - shared > settings['fit.swungExplained'] * (totalSquares - shared);
}

/** Strokes in the first look for another tempo; then twice as many each time, up to the last look. */
const FIRST_LOOK = 128;
const LAST_LOOK = 2048;
const PHASES = 12;

/**
 * A tempo within ±8 % of the grid's under which the mean resultant length is 0.5 or more. First through the first 128
 * strokes in steps a quarter of what they tell apart, then finer round the best with twice as many, up to 2048.
 * @returns undefined where none does, and on a grid that changes tempo
 */
function otherTempo(input: FitInput, settings: Settings): Bpm | undefined {
  const beat = steadyBeatMs(input.grid);
  if (beat === undefined) return undefined;
  const { targets } = input;
  const at = input.at.subarray(0, LAST_LOOK);
  const reach = settings['fit.tempoReach'];
  let from = 1 - reach;
  let to = 1 + reach;
  for (let count = Math.min(FIRST_LOOK, at.length); ; count = Math.min(2 * count, at.length)) {
    const span = at[count - 1] - at[0];
    if (!(span > 0)) return undefined;
    const step = (0.25 * targets.smallestGapMs) / span;
    const { ratio, resultant } = bestRatio(targets, at, count, from, to, step);
    if (resultant < settings['fit.tempoResultant']) return undefined;
    if (count === at.length) {
      const fine = bestRatio(targets, at, count, ratio - step, ratio + step, step / LAST_STEPS);
      return bpmOfBeat(beat) * fine.ratio;
    }
    from = Math.max(1 - reach, ratio - 2 * step);
    to = Math.min(1 + reach, ratio + 2 * step);
  }
}

/** Steps the last step is cut into. */
const LAST_STEPS = 16;

function bestRatio(
  targets: Targets,
  at: Float64Array,
  count: number,
  from: number,
  to: number,
  step: number,
): { ratio: number; resultant: number } {
  const best = { ratio: 1, resultant: 0 };
  for (let ratio = from; ratio <= to; ratio += step) {
    const resultant = resultantAt(targets, at, count, ratio);
    if (resultant > best.resultant) {
      best.resultant = resultant;
      best.ratio = ratio;
    }
  }
  return best;
}

/** Mean resultant length when the strokes were played `ratio` times as fast as the grid has it. */
function resultantAt(targets: Targets, at: Float64Array, count: number, ratio: number): number {
  const first = targets.at[0];
  const stretched = new Float64Array(count);
  for (let i = 0; i < count; i++) stretched[i] = first + (at[i] - first) * ratio;
  if (targets.regular) {
    for (let i = 0; i < count; i++) stretched[i] = (stretched[i] - first) / targets.smallestGapMs;
    return resultantLength(stretched);
  }
  let best = 0;
  for (let phase = 0; phase < PHASES; phase++) {
    const shift = (phase / PHASES - 0.5) * targets.smallestGapMs;
    best = Math.max(best, resultantOfDeviations(targets, stretched, count, shift));
  }
  return best;
}

/** Length of a beat where all are alike. */
export function steadyBeatMs(grid: Grid): Ms | undefined {
  const first = grid.bars[0];
  const beat = (first.endMs - first.startMs) / first.beats;
  const steady = grid.bars.every(
    (bar) => Math.abs((bar.endMs - bar.startMs) / bar.beats - beat) < 1e-6 * beat,
  );
  return steady ? beat : undefined;
}
