import type { Heard, HeardNote } from '../click/hear';
import { gridOf } from '../exercises/grid';
import { tempoPlayed } from '../exercises/tempo';
import type { Hand } from '../stroke';
import type { Reviewed } from '../take/reviewed';

/** How bars of a take are to sound. */
export interface HearTake {
  /** Bars of the take, from 0, in the order to sound. */
  readonly bars: readonly number[];
  readonly hand: 'both' | Hand;
  readonly speed: 'full' | 'half';
}

/** A pause between bars that did not follow each other, in beats. */
const PAUSE_BEATS = 2;

/**
 * Bars of a take as sound: every stroke that answered a slot at its own level and its own time, the take's offset taken off.
 * Strokes that no slot was due for are left out, as the report has no level for them.
 */
export function heardTake({ take, report }: Reviewed, { bars, hand, speed }: HearTake): Heard {
  const grid = gridOf(take.phrase, tempoPlayed(take.tempo, report), 0, report.bars.length);
  const slower = speed === 'half' ? 2 : 1;
  const notes: HeardNote[] = [];
  let fromMs = 0;
  let last: number | null = null;
  for (const index of bars) {
    const bar = grid.bars[index];
    if (bar === undefined) continue;
    if (last !== null && index !== last + 1) {
      fromMs += (PAUSE_BEATS * (bar.endMs - bar.startMs)) / bar.beats;
    }
    for (const slot of grid.slots.slice(bar.firstSlot, bar.firstSlot + bar.slots)) {
      const { level, deviationMs, hand: by } = report.slots[slot.index];
      if (level === null || deviationMs === null || (hand !== 'both' && hand !== by)) continue;
      const inBarMs = slot.atMs + deviationMs - report.offsetMs - bar.startMs;
      notes.push({ atMs: slower * (fromMs + inBarMs), by, levelDb: level });
    }
    fromMs += bar.endMs - bar.startMs;
    last = index;
  }
  return { notes: notes.toSorted((a, b) => a.atMs - b.atMs), lengthMs: slower * fromMs };
}
