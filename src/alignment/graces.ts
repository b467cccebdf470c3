import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import type { Db, Ms } from '../units';
import type { AlignStroke, Alignment, GracePair, SlotOutcome } from './types';

/** What may be a grace of the stroke after it, as long as nothing is known of what either is for. */
interface GraceReach {
  readonly leastMs: Ms;
  readonly mostMs: Ms;
  /** A grace may be this much louder than the stroke it leads to, and is still looked at as one. */
  readonly mostLouderDb: Db;
}

export function graceReach(grid: Grid, settings: Settings): GraceReach {
  return {
    leastMs: settings['grace.leastMs'],
    mostMs: graceReachMs(grid, settings),
    mostLouderDb: settings['grace.mostLouderDb'],
  };
}

/** How far ahead of the next stroke of its group a grace may lie, ms: 110, at fast tempos up to 0.6 of the gap. */
export function graceReachMs(grid: Grid, settings: Settings): Ms {
  return Math.min(settings['grace.mostMs'], settings['grace.mostGaps'] * grid.smallestGapMs);
}

/** True where a stroke may be a grace of the one after it: near, and not clearly louder. */
export function mayLead(
  before: Pick<AlignStroke, 'atMs' | 'levelDb'>,
  after: Pick<AlignStroke, 'atMs' | 'levelDb'>,
  { leastMs, mostMs, mostLouderDb }: GraceReach,
): boolean {
  const aheadMs = after.atMs - before.atMs;
  return aheadMs >= leastMs && aheadMs <= mostMs && before.levelDb <= after.levelDb + mostLouderDb;
}

/**
 * Strokes that may be graces of the one after them, looked for from behind: in a row of them the last leads to a stroke
 * that is none, and before as many as lead to any slot stands a stroke of its own.
 * @param most graces that lead to one stroke
 */
export function mayBeGraces(strokes: readonly AlignStroke[], reach: GraceReach, most: number): Set<number> {
  const found = new Set<number>();
  let inRow = 0;
  for (let i = strokes.length - 2; i >= 0; i -= 1) {
    const leads = inRow < most && mayLead(strokes[i], strokes[i + 1], reach);
    inRow = leads ? inRow + 1 : 0;
    if (leads) found.add(i);
  }
  return found;
}

/** How many graces lead to a stroke at most. */
export const mostGraces = ({ slots }: Grid): number =>
  slots.reduce((most, { graces }) => Math.max(most, graces.length), 0);

/**
 * Each slot's graces, looked for before its own stroke among those that answer none: the last 8–110 ms ahead of it, the
 * one before as much ahead of that; where the slot before has no stroke, not nearer to that slot. So a grace that stands in
 * a rest has the rest's room, however fast the phrase is.
 */
export function gracesOf(
  grid: Grid,
  strokes: readonly AlignStroke[],
  alignment: Alignment,
  settings: Settings,
): GracePair[] {
  const pairs: GracePair[] = [];
  const answering = new Set(alignment.outcomes.map(strokeOf));
  const reach: GraceReach = {
    leastMs: settings['grace.leastMs'],
    mostMs: settings['grace.mostMs'],
    mostLouderDb: settings['grace.mostLouderDb'],
  };
  alignment.outcomes.forEach((outcome, slot) => {
    const due = grid.slots[slot].graces.length;
    if (due === 0 || outcome.status !== 'matched') return;
    const isOpen = slot === 0 || strokeOf(alignment.outcomes[slot - 1]) !== null;
    const roomMs = isOpen ? Infinity : (grid.slots[slot].atMs - grid.slots[slot - 1].atMs) / 2;
    const fromMs = strokes[outcome.stroke].atMs - roomMs;
    const found: number[] = [];
    let next = outcome.stroke;
    for (let before = next - 1; before >= 0 && found.length < due; before -= 1) {
      if (answering.has(before) || strokes[before].atMs < fromMs) break;
      if (!mayLead(strokes[before], strokes[next], reach)) break;
      found.unshift(before);
      next = before;
    }
    if (found.length > 0) pairs.push({ slot, strokes: found });
  });
  return pairs;
}

const strokeOf = (outcome: SlotOutcome): number | null => ('stroke' in outcome ? outcome.stroke : null);
