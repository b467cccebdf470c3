import type { Graded } from './graded';
import type { SlotReport } from './types';
import { onWrongSurface } from './wrong-surface';

/** Every slot over the whole take, in grid order, with what became of it. Levels dB, deviations ms, negative early. */
export function slotReports(graded: Graded): SlotReport[] {
  const { grid, alignment, strokes } = graded;
  return grid.slots.map(({ bar, slot, hand, kind }, i): SlotReport => {
    const outcome = alignment.outcomes[i];
    const { status } = outcome;
    switch (outcome.status) {
      case 'matched': {
        const level = strokes[outcome.stroke].levelDb;
        const { deviationMs } = outcome;
        const told = { bar, slot, hand, kind, level, deviationMs, status: outcome.status } as const;
        if (outcome.wrongHand) return { ...told, wrongHand: true };
        return onWrongSurface(graded, i) ? { ...told, wrongSurface: true } : told;
      }
      case 'slipped': {
        const level = outcome.stroke === null ? null : strokes[outcome.stroke].levelDb;
        return { bar, slot, hand, kind, level, deviationMs: outcome.deviationMs, status: outcome.status };
      }
      case 'missed':
      case 'tooSoft':
      case 'notMeasured':
        return { bar, slot, hand, kind, level: null, deviationMs: null, status };
    }
  });
}
