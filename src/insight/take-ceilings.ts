import { progressOf, type NamedBars, type PhraseProgress } from './ceiling/progress';
import { phraseKeyOf, rigIdOf, summaryOf, type TakeSummary } from '../sessions/take-record';
import { gradedRecord } from './graded-record';
import { triedIn } from './history/ceilings';
import type { Reviewed } from '../take/reviewed';

/** The ceilings that a take stands under: of its phrase and each variation, from all takes of it on its rig. */
export interface TakeCeilings {
  readonly takes: number;
  readonly progress: PhraseProgress;
  readonly bars: readonly NamedBars[];
}

/**
 * Ceilings from a take and its player's others of the same phrase on the same rig. A take that is not the player's own, a
 * bundled one, is told from itself alone.
 * @param kept the player's takes
 * @returns null for a take that does not fit its grid
 */
export function ceilingsBeside(
  { take, report }: Reviewed,
  kept: readonly TakeSummary[],
  eastMinutes = 0,
): TakeCeilings | null {
  const graded = gradedRecord(take, report);
  if (graded === null) return null;
  const [phraseKey, rigId] = [phraseKeyOf(take.phrase), rigIdOf(take.rig)];
  const isOwn = kept.some(({ id }) => id === take.id);
  const others = isOwn
    ? kept.filter((one) => one.id !== take.id && one.phraseKey === phraseKey && one.rigId === rigId)
    : [];
  const all = [...others, { ...summaryOf(take), graded }];
  const bars = triedIn(all, eastMinutes);
  return { takes: all.filter((one) => one.graded !== null).length, bars, progress: progressOf(bars) };
}
