import type { Grid } from '../exercises/types';
import type { Stroke } from '../stroke';
import type { Alignment } from './types';

interface Answered {
  readonly played: readonly Stroke[];
  readonly alignment: Alignment;
}

/**
 * A take's last slot with the stroke that came late for it, by over half a gap: nothing follows that it could be for, so it
 * is that slot's, late, and no miss with a stroke left over.
 * @param played the strokes of the alignment
 * @param strokes all of the hands, in time order: so late a one may have been taken for the next bar's
 */
export function withLateLast(
  grid: Grid,
  { played, alignment }: Answered,
  strokes: readonly Stroke[],
): Answered {
  const slot = grid.slots[grid.slots.length - 1];
  const { outcomes, extras, offsetMs } = alignment;
  const last = strokes[strokes.length - 1];
  if (last === undefined || last.echoLike || slot.together > 1) return { played, alignment };
  const deviationMs = last.atMs - slot.atMs;
  const lateMs = deviationMs - offsetMs;
  const isLate = lateMs > slot.gapMs / 2 && lateMs < slot.gapMs;
  if (!isLate || outcomes[slot.index].status !== 'missed') return { played, alignment };
  const known = played.indexOf(last);
  if (outcomes.some((outcome) => 'stroke' in outcome && outcome.stroke === known))
    return { played, alignment };
  const stroke = known < 0 ? played.length : known;
  const wrongHand = last.hand !== null && last.hand !== slot.hand;
  return {
    played: known < 0 ? [...played, last] : played,
    alignment: {
      ...alignment,
      outcomes: outcomes.map((outcome, index) =>
        index === slot.index ? { status: 'matched', stroke, deviationMs, wrongHand } : outcome,
      ),
      extras: extras.filter((extra) => extra.stroke !== stroke),
    },
  };
}
