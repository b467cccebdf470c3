import { gridOf } from '../../exercises/grid';
import { tempoPlayed } from '../../exercises/tempo';
import type { Grid, Phrase, Slot, Tempo } from '../../exercises/types';
import type { Hand } from '../../stroke';
import { median, distributionOf } from '../numbers/statistics';
import { isAsDue } from '../facts/facts';
import type { Report } from '../types';

/** One stroke's place in bars that are meant to sound alike. */
interface AlikePlace {
  /** Partial of the pattern, from 0. */
  readonly place: number;
  /** First slot in the bar that has it, from 0. */
  readonly slot: number;
  /** Hand due there, a variation each. */
  readonly hands: readonly Hand[];
  /** Mean gap to the nearer neighbour, ms. */
  readonly gapMs: number;
}

/**
 * Bars of variations with the same layout of accents, soft strokes, rests and surfaces, place by place: they differ in
 * their hands alone and are meant to sound alike.
 */
export interface AlikeBars {
  /** By name, in phrase order; two at least. */
  readonly variations: readonly string[];
  readonly places: readonly AlikePlace[];
  /** Values a bar has: a level a place (dB, less the take's median of its kind), then a deviation a place (ms, less the bar's mean). */
  readonly dimensions: number;
  /** One row a bar, `dimensions` wide; NaN where nothing of that place was matched. */
  readonly values: Float64Array;
  /** By bar: number of its variation. */
  readonly labels: Uint16Array;
  /** By bar: the cycle it stands in, numbered without gaps. Labels are shuffled within it. */
  readonly cycles: Uint16Array;
}

/**
 * The groups of variations that are meant to sound alike. Averaged over the repeats of the pattern in a bar. Wrong
 * hands, slipped strokes and notes together are left out; where time stamps came in clumps, so is timing.
 * @param phrase the one the take was played from
 * @returns nothing where every variation has a layout of its own, as in an accent walk with one lead
 */
export function alikeBars(report: Report, phrase: Phrase, tempo: Tempo): AlikeBars[] {
  if (!report.fits || report.bars.length === 0) return [];
  const grid = gridOf(phrase, tempoPlayed(tempo, report), 0, report.bars.length);
  const groups = new Map<string, string[]>();
  for (const [name, layout] of layouts(grid)) groups.set(layout, [...(groups.get(layout) ?? []), name]);
  return [...groups.values()].filter((names) => names.length > 1).map((names) => barsOf(report, grid, names));
}

/** A variation's layout as text, by name; variations whose bars differ among themselves are left out. */
function layouts(grid: Grid): Map<string, string> {
  const found = new Map<string, string | null>();
  for (const bar of grid.bars.slice(0, grid.barsPerCycle)) {
    if (bar.slots === 0) continue;
    const slots = slotsOf(grid, bar.index);
    const beats = bar.partialsPerBeat.join('+');
    const layout = `${beats}:${slots.map((s) => `${s.partial}${s.kind}${s.graces.length}${s.surface ?? ''}`).join(',')}`;
    const before = found.get(bar.variation);
    found.set(bar.variation, before === undefined || before === layout ? layout : null);
  }
  return new Map([...found].flatMap(([name, layout]) => (layout === null ? [] : [[name, layout]])));
}

function slotsOf(grid: Grid, bar: number): readonly Slot[] {
  const { firstSlot, slots } = grid.bars[bar];
  return grid.slots.slice(firstSlot, firstSlot + slots);
}

function barsOf(report: Report, grid: Grid, variations: readonly string[]): AlikeBars {
  const first = variations.map((name) =>
    grid.bars.findIndex((bar) => bar.variation === name && bar.slots > 0),
  );
  const patterns = first.map((bar) => slotsOf(grid, bar)[0].patternLength);
  // a common pattern, else the bar
  const period = patterns.every((length) => length === patterns[0]) ? patterns[0] : Infinity;
  const placeOf = ({ partial }: Slot): number => (period === Infinity ? partial : partial % period);
  const places = placesOf(grid, first, placeOf);
  const number = new Map(places.map(({ place }, index) => [place, index]));
  const timed = report.clumped !== true;
  const dimensions = places.length * (timed ? 2 : 1);
  const middle = medians(report, grid);
  const bars = grid.bars.filter((bar) => bar.slots > 0 && variations.includes(bar.variation));
  const labels = Uint16Array.from(bars, (bar) => variations.indexOf(bar.variation));
  const values = new Float64Array(bars.length * dimensions);
  bars.forEach((bar, row) => {
    const sums = new Float64Array(2 * places.length);
    const counts = new Float64Array(places.length);
    const at = (slot: Slot): number => number.get(placeOf(slot)) ?? 0;
    let [sumMs, matched] = [0, 0];
    for (const slot of slotsOf(grid, bar.index)) {
      const judged = report.slots[slot.index];
      const { judgedLevel, deviationMs } = judged;
      if (!isAsDue(judged) || judgedLevel === null || deviationMs === null) continue;
      if (slot.together > 1) continue;
      const k = at(slot);
      sums[k] += judgedLevel - middle[slot.kind];
      sums[places.length + k] += deviationMs;
      sumMs += deviationMs;
      counts[k]++;
      matched++;
    }
    const mean = sumMs / matched;
    for (let k = 0; k < places.length; k++) {
      values[row * dimensions + k] = sums[k] / counts[k];
      if (timed) values[row * dimensions + places.length + k] = sums[places.length + k] / counts[k] - mean;
    }
  });
  return {
    variations,
    places,
    dimensions,
    values,
    labels,
    cycles: blocks(bars, labels, variations.length),
  };
}

function placesOf(grid: Grid, first: readonly number[], placeOf: (slot: Slot) => number): AlikePlace[] {
  const found = new Map<number, AlikePlace>();
  const slots = first.map((bar) => slotsOf(grid, bar));
  slots[0].forEach((slot, index) => {
    const place = placeOf(slot);
    if (slot.together > 1 || found.has(place)) return;
    found.set(place, { place, slot: slot.slot, hands: slots.map((of) => of[index].hand), gapMs: slot.gapMs });
  });
  return [...found.values()];
}

/** Median level of each kind over the take, dB, dynamics off. */
function medians(report: Report, grid: Grid): Readonly<Record<Slot['kind'], number>> {
  const of = (kind: Slot['kind']): number =>
    median(
      distributionOf(
        grid.slots.flatMap((slot) => {
          const { judgedLevel } = report.slots[slot.index];
          return slot.kind === kind ? (judgedLevel ?? []) : [];
        }),
      ),
    ) ?? 0;
  return { accent: of('accent'), tap: of('tap'), ghost: of('ghost') };
}

/**
 * Cycles, numbered without gaps. A phrase whose one cycle is many draws of the same variations (a shuffle) is taken a
 * draw at a time.
 */
function blocks(bars: readonly Grid['bars'][number][], labels: Uint16Array, k: number): Uint16Array {
  const whole = bars.every((bar) => bar.cycle === 0);
  const isDraw = (from: number): boolean => {
    const draw = labels.subarray(from, from + k);
    return new Set(draw).size === draw.length;
  };
  const starts = bars.map((_, i) => i - (i % k));
  const drawn = whole && starts.every(isDraw);
  if (drawn) return Uint16Array.from(bars, (_, i) => Math.floor(i / k));
  const numbers = new Map<number, number>();
  for (const { cycle } of bars) if (!numbers.has(cycle)) numbers.set(cycle, numbers.size);
  return Uint16Array.from(bars, ({ cycle }) => numbers.get(cycle) ?? 0);
}
