import type { TakeSummary } from '../../sessions/take-record';
import { progressOf, type NamedBars, type PhraseProgress } from '../ceiling/progress';
import { dayOf } from './weeks';

/** Bars that takes tried, with their days. */
export function triedIn(takes: readonly TakeSummary[], eastMinutes = 0): readonly NamedBars[] {
  return takes.flatMap(({ graded, recordedAt }) => {
    const day = Math.floor(dayOf(recordedAt, eastMinutes));
    return (graded?.bars ?? []).map(({ variation, bpm, bars, held }) => ({
      variation,
      bpm,
      bars,
      clean: held,
      day: Number.isFinite(day) ? day : 0,
    }));
  });
}

/**
 * How a phrase stands now.
 * @param takes of one phrase on one rig by one player
 */
export function progressNow(takes: readonly TakeSummary[], eastMinutes = 0): PhraseProgress {
  return progressOf(triedIn(takes, eastMinutes));
}
