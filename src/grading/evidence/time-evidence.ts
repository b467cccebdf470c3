import type { Hand } from '../../stroke';
import type { Ms } from '../../units';
import { who } from './codes';
import type { Columns } from './columns';
import type { Estimate } from '../numbers/intervals';
import { fact } from '../facts/phrase-facts';
import { timeModel, type TimeModel, type TimeRow } from '../models/time-model';
import { arrivals } from '../models/time-model/arrival';
import { ofVariations, type VariationTerm } from '../models/time-model/of-variation';
import { mean, median } from '../../ordered';

/** What the time model says of the take, and of each variation by its number. */
export interface TimeEvidence {
  /** undefined: under four bars with enough strokes. */
  readonly model: TimeModel | undefined;
  /** Strokes of each side behind the take's terms: R and L, off-beats and on-beats, second notes of doubles. */
  readonly n: {
    readonly lag: readonly [number, number];
    readonly feel: readonly [number, number];
    readonly second: number;
  };
  readonly lags: readonly VariationTerm[];
  readonly seconds: readonly VariationTerm[];
  readonly arrivals: readonly (Estimate | undefined)[];
  /** Strokes of each variation that the model has. */
  readonly strokes: readonly number[];
  /** Mean gap of its slots, and what that would be without swing, ms; undefined without a stroke. */
  readonly gapMs: Ms | undefined;
  readonly straightGapMs: Ms | undefined;
  /** Mean time between the notes of a double, ms; undefined without one. */
  readonly doubleMs: Ms | undefined;
  /** How much later off-beats come than on-beats within bars, whatever it is that makes them, ms. */
  readonly offBeatsMs: Ms | undefined;
  /** By slot: 1 where it is a row of the model. */
  readonly isRow: Uint8Array;
  /** By slot: deviation less its bar's middle and the terms, ms; NaN where it is no row of the model. */
  readonly residualMs: Float64Array;
}

/**
 * The time model's rows, one a matched main stroke of the hands by the hand due, and its answers. Unisons are rows only
 * where a hand plays nothing else: then they are all that tells which hand comes late.
 */
export function timeEvidenceOf(columns: Columns): TimeEvidence {
  const { grid } = columns.graded;
  const { slots, bars } = grid;
  const rows: TimeRow[] = [];
  const slotOf: number[] = [];
  const alone = (hand: Hand): boolean => slots.some((slot) => slot.together === 1 && slot.hand === hand);
  const withUnisons = !alone('R') || !alone('L');
  const strokes = columns.names.map(() => 0);
  const n = { lag: [0, 0] as [number, number], feel: [0, 0] as [number, number], second: 0 };
  let [gaps, straight, doubles] = [0, 0, 0];
  for (let i = 0; i < slots.length; i++) {
    const slot = slots[i];
    if ((slot.together === 2 && !withUnisons) || (columns.who[i] !== who.R && columns.who[i] !== who.L))
      continue;
    const bar = bars[slot.bar];
    const partials = bar.partialsPerBeat[slot.beat];
    const second = (columns.facts[i] & fact.double) !== 0;
    rows.push({
      bar: slot.bar,
      cycle: slot.cycle,
      variation: columns.variation[i],
      hand: slot.hand,
      partial: slot.partialInBeat,
      partials,
      second,
      seam: slot.slot === 0 && changesAt(columns, slot.bar),
      deviationMs: columns.deviationMs[i],
      gapMs: slot.gapMs,
    });
    slotOf.push(i);
    strokes[columns.variation[i]]++;
    n.lag[slot.hand === 'R' ? 0 : 1]++;
    n.feel[slot.partialInBeat % 2 === 1 ? 0 : 1]++;
    gaps += slot.gapMs;
    straight += (bar.endMs - bar.startMs) / bar.beats / partials;
    if (!second) continue;
    n.second++;
    doubles += slot.atMs - slots[i - 1].atMs;
  }
  const model = timeModel(rows);
  const isRow = new Uint8Array(slots.length);
  for (const slot of slotOf) isRow[slot] = 1;
  const residualMs = new Float64Array(slots.length).fill(NaN);
  model?.residuals.forEach((residual, row) => (residualMs[slotOf[row]] = residual));
  const variations = columns.names.length;
  const meanOf = (sum: number, count: number): Ms | undefined => (count === 0 ? undefined : sum / count);
  // Without a click each bar is graded by the player's own time about it: none comes late against the others.
  const clicked = columns.graded.freeTime === undefined;
  return {
    model,
    n,
    lags: model ? ofVariations(model, 'lag', variations) : [],
    seconds: model ? ofVariations(model, 'second', variations) : [],
    arrivals: model && clicked ? arrivals(model.bars, variations) : [],
    strokes,
    gapMs: meanOf(gaps, rows.length),
    straightGapMs: meanOf(straight, rows.length),
    doubleMs: meanOf(doubles, n.second),
    offBeatsMs: offBeatsLater(rows),
    isRow,
    residualMs,
  };
}

/** Mean over bars of the median off-beat less the median on-beat; undefined where no bar has both. */
function offBeatsLater(rows: readonly TimeRow[]): Ms | undefined {
  const laterMs: number[] = [];
  for (let from = 0, to = 0; from < rows.length; from = to) {
    const sides: [on: number[], off: number[]] = [[], []];
    for (; to < rows.length && rows[to].bar === rows[from].bar; to++) {
      const { partial, partials, deviationMs } = rows[to];
      if (partials % 2 === 0) sides[partial % 2 === 1 ? 1 : 0].push(deviationMs);
    }
    const [on, off] = sides.map(median);
    if (on !== undefined && off !== undefined) laterMs.push(off - on);
  }
  return mean(laterMs);
}

/** Whether a bar's variation differs from that of the bar before, both to be played. */
function changesAt({ graded: { grid } }: Columns, bar: number): boolean {
  const before = grid.bars[bar - 1];
  return before?.role === 'play' && before.variation !== grid.bars[bar].variation;
}
