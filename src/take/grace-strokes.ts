import { graceReach, mayBeGraces, mostGraces } from '../alignment/graces';
import type { Alignment } from '../alignment/types';
import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import type { Stroke } from '../stroke';

/** A take paired as it was due, before what happened to it is known. */
interface PairedAsDue {
  readonly grid: Grid;
  readonly played: readonly Stroke[];
  readonly alignment: Alignment;
}

/**
 * Which of the hands' strokes are graces, as long as nothing is known of what happened to the take: those found by pairing
 * it as it was due, where that finds most of them; else what lies before a stroke so that it may be one.
 * @param strokes of the hands, in time order
 * @param asDue the pairing; asked for only where the phrase has graces
 */
export function graceStrokes(
  cycle: Grid,
  strokes: readonly Stroke[],
  asDue: () => PairedAsDue,
  settings: Settings,
): ReadonlySet<Stroke> {
  const most = mostGraces(cycle);
  if (most === 0) return new Set();
  const { grid, played, alignment } = asDue();
  const found = (alignment.graces ?? []).flatMap((pair) => pair.strokes.map((index) => played[index]));
  const due = alignment.outcomes.reduce(
    (sum, { status }, slot) => sum + (status === 'matched' ? grid.slots[slot].graces.length : 0),
    0,
  );
  if (due > 0 && found.length >= settings['grace.fewestFound'] * due) return new Set(found);
  const struck = strokes.filter(({ echoLike }) => !echoLike);
  return new Set([...mayBeGraces(struck, graceReach(cycle, settings), most)].map((index) => struck[index]));
}
