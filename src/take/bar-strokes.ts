import { gridOf } from '../exercises/grid';
import { tempoPlayed } from '../exercises/tempo';
import type { Phrase, Slot, Tempo } from '../exercises/types';
import { isAsDue } from '../grading/facts/facts';
import type { Report } from '../grading/types';
import type { Bpm, Db, Ms } from '../units';

/** A matched stroke against its own place over the take. */
export interface PlacedStroke {
  readonly slot: Slot;
  readonly levelDb: Db;
  /** Less the mean of its (variation, place, hand) over the take. */
  readonly overPlaceDb: Db;
  readonly overPlaceMs: Ms;
  readonly deviationMs: Ms;
}

/** A bar to play with its matched strokes. */
export interface BarStrokes {
  readonly index: number;
  readonly variation: string;
  /** From the first bar on. */
  readonly startMs: Ms;
  readonly lengthMs: Ms;
  /** Mean tempo of the bar. */
  readonly bpm: Bpm;
  readonly strokes: readonly PlacedStroke[];
}

/** Bars of a graded take; wrong hands left out. Nothing of a take that doesn't fit its grid. */
export function barStrokes(report: Report, phrase: Phrase, tempo: Tempo): readonly BarStrokes[] {
  if (!report.fits) return [];
  const grid = gridOf(phrase, tempoPlayed(tempo, report), 0, report.bars.length);
  const sums = new Map<string, { n: number; db: number; ms: number }>();
  const keyOf = ({ variation, place, hand }: Slot): string => `${variation} ${place} ${hand}`;
  const matched = grid.slots.flatMap((slot) => {
    const judged = report.slots[slot.index];
    const { judgedLevel: levelDb, deviationMs } = judged;
    if (!isAsDue(judged) || levelDb === null || deviationMs === null) return [];
    const sum = sums.get(keyOf(slot)) ?? { n: 0, db: 0, ms: 0 };
    sums.set(keyOf(slot), { n: sum.n + 1, db: sum.db + levelDb, ms: sum.ms + deviationMs });
    return [{ slot, levelDb, deviationMs }];
  });
  const ofBar = new Map<number, PlacedStroke[]>();
  for (const { slot, levelDb, deviationMs } of matched) {
    const { n, db, ms } = sums.get(keyOf(slot)) ?? { n: 1, db: levelDb, ms: deviationMs };
    const one = {
      slot,
      levelDb,
      deviationMs,
      overPlaceDb: levelDb - db / n,
      overPlaceMs: deviationMs - ms / n,
    };
    const strokes = ofBar.get(slot.bar);
    if (strokes === undefined) ofBar.set(slot.bar, [one]);
    else strokes.push(one);
  }
  return grid.bars
    .filter(({ role, slots }) => role === 'play' && slots > 0)
    .map(({ index, variation, startMs, endMs, beats }) => ({
      index,
      variation,
      startMs,
      lengthMs: endMs - startMs,
      bpm: (beats * 60_000) / (endMs - startMs),
      strokes: ofBar.get(index) ?? [],
    }));
}
