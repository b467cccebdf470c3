import { gridOf } from '../exercises/grid';
import { tempoPlayed } from '../exercises/tempo';
import type { Phrase, Slot, Tempo } from '../exercises/types';
import type { Bpm } from '../units';
import type { Report } from '../grading/types';

/** A bar's tempo as it was meant and as it was played. */
interface BarTempo {
  /** Index of the bar. */
  readonly bar: number;
  /** In free time what the lines through the strokes around it make of it. */
  readonly plannedBpm: Bpm;
  /** From the bar's own strokes alone; null where there are too few. */
  readonly playedBpm: Bpm | null;
}

const MS_A_MINUTE = 60_000;
/** Fewer strokes of a bar don't tell its tempo. Common practice. */
const FEWEST = 4;

/** Each bar's tempo: the least-squares slope of its strokes over its beats. */
export function barTempos(report: Report, phrase: Phrase, tempo: Tempo): readonly BarTempo[] {
  const grid = gridOf(phrase, tempoPlayed(tempo, report), 0, report.bars.length);
  return grid.bars.map((bar): BarTempo => {
    const slots = grid.slots.slice(bar.firstSlot, bar.firstSlot + bar.slots);
    const plannedBpm = (MS_A_MINUTE * bar.beats) / (bar.endMs - bar.startMs);
    const slope = slopeOf(
      slots,
      slots.map(({ index }) => report.slots[index]?.deviationMs ?? null),
    );
    return { bar: bar.index, plannedBpm, playedBpm: slope === null ? null : plannedBpm / (1 + slope) };
  });
}

/** How much longer than planned the bar was played: deviation over time, least squares. */
function slopeOf(slots: readonly Slot[], offMs: readonly (number | null)[]): number | null {
  const pairs = slots.flatMap((slot, index) => {
    const off = offMs[index];
    return off === null ? [] : [{ x: slot.atMs, y: off }];
  });
  if (pairs.length < FEWEST) return null;
  const mean = (of: (pair: { x: number; y: number }) => number): number =>
    pairs.reduce((sum, pair) => sum + of(pair), 0) / pairs.length;
  const [x, y] = [mean((pair) => pair.x), mean((pair) => pair.y)];
  const spread = pairs.reduce((sum, pair) => sum + (pair.x - x) * (pair.x - x), 0);
  return spread === 0 ? null : pairs.reduce((sum, pair) => sum + (pair.x - x) * (pair.y - y), 0) / spread;
}
