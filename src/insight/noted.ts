import type { NotedTake } from '../sessions/paper/lesson-note';
import { phraseKeyOf, rigIdOf, summaryOf, type TakeSummary } from '../sessions/take-record';
import type { Reviewed } from '../take/reviewed';
import { standingWords } from './ceiling/words';
import { gradedRecord } from './graded-record';
import { dayOf } from './history/weeks';
import { ceilingsBeside } from './take-ceilings';

/**
 * A take as a lesson note has it: with how its phrase stands on its rig, by all takes of its player.
 * @param date the note's day: what is *now*
 */
export function notedBeside(
  reviewed: Reviewed,
  kept: readonly TakeSummary[],
  date: string,
  eastMinutes: number,
): NotedTake {
  const ceilings = ceilingsBeside(reviewed, kept, eastMinutes);
  if (ceilings === null) return reviewed;
  return { ...reviewed, standing: standingWords(ceilings.progress, dayOf(date, 0)) };
}

/** Takes of one player in one note: how a phrase stands is said with the last of them on a rig. */
export function notedTogether(all: readonly Reviewed[], date: string): readonly NotedTake[] {
  const kept = all.map(({ take, report }) => ({ ...summaryOf(take), graded: gradedRecord(take, report) }));
  const keys = all.map(({ take }) => `${phraseKeyOf(take.phrase)} ${rigIdOf(take.rig)}`);
  return all.map((one, index) =>
    keys.lastIndexOf(keys[index]) === index ? notedBeside(one, kept, date, 0) : one,
  );
}
