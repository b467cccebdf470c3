import { square } from '../exact';
import type { GridBar } from '../exercises/types';
import { kindCode, who } from './codes';
import type { Evidence } from './evidence';
import { accentHeightLimit, linesIn } from './heights';
import { limitOf } from './limits';
import type { BarReport, Broke } from './types';
import { onWrongSurface } from './wrong-surface';

/**
 * Each bar with what broke it. A bar is held when nothing in it was missed, added, slipped or in the wrong hand; its
 * median accent less its median soft stroke is at or above the `contrast` limit; no soft stroke is louder than its
 * softest accent (both on each surface by itself where the phrase is voiced to several); and the root mean square of its deviations about their places' means is within 1.25 × the `scatter`
 * limit. Conditions without strokes are skipped; so is `contrast` where accents clip, which can hold but not fail.
 * Source: common practice.
 * @example one missed stroke, the rest good: `{ held: false, broke: ['missed'] }`
 */
export function barsHeld(evidence: Evidence): BarReport[] {
  const { grid, alignment } = evidence.graded;
  const extras = new Set(alignment.extras.map(({ bar }) => bar));
  return grid.bars.map((bar): BarReport => {
    const { index, variation, role } = bar;
    if (role !== 'play') return { index, variation, role, held: true, broke: [] };
    const broke = extras.has(bar.index) ? ['extra' as const] : [];
    return judgedBar(bar, [...broke, ...brokenIn(evidence, bar)]);
  });
}

const order: readonly Broke[] = [
  'missed',
  'extra',
  'slipped',
  'wrongHand',
  'wrongSurface',
  'contrast',
  'order',
  'scatter',
];

function judgedBar({ index, variation }: GridBar, broke: readonly Broke[]): BarReport {
  return {
    index,
    variation,
    held: broke.length === 0,
    broke: order.filter((reason) => broke.includes(reason)),
  };
}

/** Levels of a bar on one class of surfaces: they compare within it only. */
interface BarLevels {
  readonly accents: number[];
  readonly softs: number[];
}

function brokenIn(evidence: Evidence, bar: GridBar): Broke[] {
  const { graded, levelDb, deviationMs, kind, timing } = evidence;
  const { settings, alignment } = graded;
  const broke: Broke[] = [];
  const levels = evidence.surfaces.map((): BarLevels => ({ accents: [], softs: [] }));
  let [squares, n, gapMs] = [0, 0, 0];
  for (let i = bar.firstSlot; i < bar.firstSlot + bar.slots; i++) {
    const { status } = alignment.outcomes[i];
    if (status === 'missed' || status === 'slipped') broke.push(status);
    if (evidence.who[i] === who.none) continue;
    const isElsewhere = onWrongSurface(graded, i);
    if (isElsewhere) broke.push('wrongSurface');
    else if (evidence.who[i] === who.wrong) broke.push('wrongHand');
    const { accents, softs } = levels[evidence.surface[i]];
    if (!isElsewhere) (kind[i] === kindCode.accent ? accents : softs).push(levelDb[i]);
    squares += square(deviationMs[i] - timing.placeMeanMs(i));
    gapMs += graded.grid.slots[i].gapMs;
    n++;
  }
  levels.forEach(({ accents, softs }, surface) => {
    if (accents.length === 0 || softs.length === 0) return;
    accents.sort(ascending);
    softs.sort(ascending);
    const clips = evidence.clipping.touches({ variation: evidence.variation[bar.firstSlot] });
    const lines = linesIn(evidence, { surface });
    const isClear =
      lines === undefined
        ? middle(accents) - middle(softs) >= settings['contrast.holds']
        : middle(accents) >= accentHeightLimit(lines).holds;
    if (!clips && !isClear) broke.push('contrast');
    if (softs[softs.length - 1] > accents[0]) broke.push('order');
  });
  if (n > 0 && graded.clumped !== true) {
    const limitMs = settings['held.scatterFactor'] * limitOf('scatter', settings, { gapMs: gapMs / n }).holds;
    if (Math.sqrt(squares / n) > limitMs) broke.push('scatter');
  }
  return broke;
}

function ascending(a: number, b: number): number {
  return a - b;
}

/** Median of values in ascending order. */
function middle(sorted: readonly number[]): number {
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}
