import { gridOf } from '../exercises/grid';
import { tempoPlayed } from '../exercises/tempo';
import type { Phrase, Tempo } from '../exercises/types';
import { measureOrder, type JudgedKey, type Report } from '../grading/types';
import { figureOf, weakestFirst } from '../grading/weakest';
import { GRADED_VERSION, type BarsHeld, type Graded, type KeptFigure } from '../sessions/take-record';
import type { Take } from '../sessions/types';
import type { Bpm } from '../units';

/**
 * What History keeps of a report: its weakest margin, the figures with their intervals, and bars held by variation and
 * tempo. A take that does not fit its grid has none: null.
 */
export function gradedRecord(take: Take, report: Report): Graded | null {
  if (!report.fits) return null;
  const [weakest] = weakestFirst(report.variations);
  return {
    version: GRADED_VERSION,
    weakest:
      weakest === undefined
        ? null
        : { variation: weakest.variation.name, measure: weakest.key, margin: weakest.supported },
    measures: figuresOf(report),
    bars: barsHeldOf(take, report),
  };
}

function figuresOf({ measures }: Report): Graded['measures'] {
  const kept: Partial<Record<JudgedKey, KeptFigure>> = {};
  for (const key of measureOrder) {
    const figure = figureOf(measures, key);
    if (typeof figure?.value === 'number') kept[key] = { value: figure.value, interval: figure.interval };
  }
  return kept;
}

/** Bars to listen to or to count aloud are none to hold. */
function barsHeldOf(take: Take, report: Report): readonly BarsHeld[] {
  const bpmOf = tempoOfBars(take.phrase, tempoPlayed(take.tempo, report), report.bars.length);
  const rows = new Map<string, BarsHeld>();
  for (const { index, variation, role, clean } of report.bars) {
    if (role !== undefined) continue;
    const bpm = bpmOf(index);
    const key = `${bpm} ${variation}`;
    const row = rows.get(key) ?? { variation, bpm, bars: 0, held: 0 };
    rows.set(key, { ...row, bars: row.bars + 1, held: row.held + Number(clean) });
  }
  return [...rows.values()];
}

/** A ramp's bars by their mean tempo, in whole bpm. */
function tempoOfBars(phrase: Phrase, tempo: Tempo, bars: number): (index: number) => Bpm {
  if ('bpm' in tempo) return () => tempo.bpm;
  const grid = gridOf(phrase, tempo, 0, bars);
  return (index) => {
    const { startMs, endMs } = grid.bars[index];
    const beats = phrase.bars[index % phrase.bars.length].beatsPerBar ?? phrase.beatsPerBar;
    return Math.round((beats * 60_000) / (endMs - startMs));
  };
}
