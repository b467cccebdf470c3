import { atan2, cos, length, sin } from '../../exact';
import type { Ms } from '../../units';
import { medianInPlace } from '../../ordered';
import type { Lattice, OnLattice } from './lattice';

/** Half a bar of strokes, and where they lie in their partial as a whole. */
export interface Block {
  /** Mean time of its strokes. */
  readonly atMs: Ms;
  /** Circular mean of stroke − partial, unwrapped along the blocks. */
  readonly phaseMs: Ms;
  /** Mean resultant length: 1 where all lie alike, near 0 where anywhere. */
  readonly resultant: number;
  /** Half bars from the beginning of the take, and of the cycle. */
  readonly half: number;
  readonly inCycle: number;
  /** Its first stroke. */
  readonly from: number;
}

const FEWEST = 3;

/**
 * The half bars of a stretch of strokes that have strokes enough (3, and a quarter of the bar's slots), in order.
 * @param isIn bars to look at
 */
export function blocksOf(
  { lattice, places, at: times }: OnLattice,
  { from, to }: { readonly from: number; readonly to: number },
  isIn: (bar: number) => boolean = () => true,
): readonly Block[] {
  const { bar, inBar } = lattice;
  const cycleBars = bar[Math.min(lattice.perCycle, bar.length) - 1] + 1;
  const blocks: Block[] = [];
  let [count, cosines, sines, sumMs, first, current, due] = [0, 0, 0, 0, from, -1, 0];
  let ofBar = { partials: 0, due: 0 };
  const close = (): void => {
    if (count > 0 && isIn(current >> 1) && count >= Math.max(FEWEST, due / 4)) {
      const phaseMs = (atan2(sines, cosines) / (2 * Math.PI)) * lattice.stepMs;
      const resultant = length(cosines, sines) / count;
      const atMs = sumMs / count;
      blocks.push({
        atMs,
        phaseMs,
        resultant,
        half: current,
        inCycle: current % (2 * cycleBars),
        from: first,
      });
    }
    [count, cosines, sines, sumMs] = [0, 0, 0, 0];
  };
  for (let i = from; i < to; i += 1) {
    const place = Math.min(bar.length - 1, Math.max(0, Math.floor(places[i] + HALF)));
    if (bar[place] !== current >> 1) ofBar = barWith(lattice, place);
    const half = 2 * bar[place] + (2 * inBar[place] >= ofBar.partials ? 1 : 0);
    if (half !== current) {
      close();
      current = half;
      due = ofBar.due;
      first = i;
    }
    const angle = 2 * Math.PI * (places[i] - Math.floor(places[i]));
    cosines += cos(angle);
    sines += sin(angle);
    sumMs += times[i];
    count += 1;
  }
  close();
  return unwrapped(blocks, lattice.stepMs);
}

const HALF = 0.5;

/** Partials and slots of the bar that has a place. */
function barWith({ bar, inBar, slot }: Lattice, place: number): { partials: number; due: number } {
  let [partials, due] = [0, 0];
  for (let i = place - inBar[place]; bar[i] === bar[place]; i += 1) {
    partials += 1;
    if (slot[i] >= 0) due += 1;
  }
  return { partials, due };
}

/** Phases carried on from block to block along the median of their changes, so that a steady drift doesn't jump by a partial. */
function unwrapped(blocks: readonly Block[], stepMs: Ms): readonly Block[] {
  const wrap = (ms: Ms): Ms => ms - stepMs * Math.round(ms / stepMs);
  const changes = blocks.slice(1).map(({ phaseMs }, i) => wrap(phaseMs - blocks[i].phaseMs));
  const slope = medianInPlace(Float64Array.from(changes)) ?? 0;
  let before: Ms | undefined;
  let halfBefore = 0;
  return blocks.map((block) => {
    const expected = before === undefined ? block.phaseMs : before + slope * (block.half - halfBefore);
    const phaseMs = expected + wrap(block.phaseMs - expected);
    before = phaseMs;
    halfBefore = block.half;
    return { ...block, phaseMs };
  });
}
