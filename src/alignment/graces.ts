import type { Grid } from '../exercises/types';
import type { Settings } from '../settings';
import type { Db, Ms } from '../units';
import type { AlignStroke, Alignment, GracePair } from './types';

/** What may be a grace of the stroke after it. */
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

/** How far ahead of the next stroke of its group a grace may lie, ms: 80, at fast tempos up to 0.6 of the gap. */
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

/** Every stroke that may be a grace of the one after it. */
export function mayBeGraces(strokes: readonly AlignStroke[], reach: GraceReach): Set<number> {
  const found = new Set<number>();
  for (let i = 0; i + 1 < strokes.length; i += 1) {
    if (mayLead(strokes[i], strokes[i + 1], reach)) found.add(i);
  }
  return found;
}

/**
 * Each slot's graces, looked for before its own stroke among those reserved: the last 8–80 ms ahead of it, the one
 * before as much ahead of that.
 */
export function gracesOf(
  grid: Grid,
  strokes: readonly AlignStroke[],
  alignment: Alignment,
  reserved: ReadonlySet<number>,
  reach: GraceReach,
): GracePair[] {
  const pairs: GracePair[] = [];
  alignment.outcomes.forEach((outcome, slot) => {
    const due = grid.slots[slot].graces.length;
    if (due === 0 || outcome.status !== 'matched') return;
    const found: number[] = [];
    let next = outcome.stroke;
    for (let before = next - 1; before >= 0 && found.length < due; before -= 1) {
      if (!reserved.has(before) || !mayLead(strokes[before], strokes[next], reach)) break;
      found.unshift(before);
      next = before;
    }
    if (found.length > 0) pairs.push({ slot, strokes: found });
  });
  return pairs;
}
