import { gridOf } from '../exercises/grid';
import { tempoPlayed } from '../exercises/tempo';
import type { Phrase, Tempo } from '../exercises/types';
import type { Report } from '../grading/types';
import type { BarsHeld } from './take-record';

/**
 * Bars of a take and how many of them were clean, a row a variation and tempo; a ramp's and those in free time by their
 * mean tempo in whole bpm. Bars to listen to or to count aloud are none.
 * @returns nothing of a take that doesn't fit its grid
 */
export function barsTried(report: Report, phrase: Phrase, tempo: Tempo): readonly BarsHeld[] {
  if (!report.fits) return [];
  const played = tempoPlayed(tempo, report);
  const grid = gridOf(phrase, played, 0, report.bars.length);
  const rows = new Map<string, BarsHeld>();
  for (const bar of report.bars) {
    if (bar.role !== undefined) continue;
    const { startMs, endMs, beats } = grid.bars[bar.index];
    const { variation } = bar;
    const bpm = 'bpm' in played ? played.bpm : Math.round((beats * 60_000) / (endMs - startMs));
    const key = `${bpm} ${variation}`;
    const row = rows.get(key) ?? { variation, bpm, bars: 0, held: 0 };
    rows.set(key, { ...row, bars: row.bars + 1, held: row.held + Number(bar.clean) });
  }
  return [...rows.values()];
}
