import type { TakeSummary } from '../../sessions/take-record';
import { progressOf, type NamedBars, type PhraseProgress } from '../ceiling/progress';
import { spellsOf } from '../ceiling/spells';
import { dayOf } from './weeks';

/**
 * Bars that takes tried, with their days.
 * @param of the variation; left out for all of them
 */
export function triedIn(takes: readonly TakeSummary[], eastMinutes = 0, of?: string): readonly NamedBars[] {
  const tried: NamedBars[] = [];
  for (const { graded, recordedAt } of takes) {
    const day = wholeDayOf(recordedAt, eastMinutes);
    for (const { variation, bpm, bars, held } of graded?.bars ?? []) {
      if (of === undefined || variation === of) tried.push({ variation, bpm, bars, clean: held, day });
    }
  }
  return tried;
}

function wholeDayOf(recordedAt: string, eastMinutes: number): number {
  const day = Math.floor(dayOf(recordedAt, eastMinutes));
  return Number.isFinite(day) ? day : 0;
}

/**
 * How a phrase stands now.
 * @param takes of one phrase on one rig by one player
 */
export function progressNow(takes: readonly TakeSummary[], eastMinutes = 0): PhraseProgress {
  const withBars = takes
    .filter(({ graded }) => graded !== null && graded.bars.length > 0)
    .map((take) => ({ take, day: wholeDayOf(take.recordedAt, eastMinutes) }));
  // no earlier spell has a say
  const latest = spellsOf(withBars)
    .slice(-SPELLS)
    .flatMap(({ played }) => played.map(({ take }) => take));
  return progressOf(triedIn(latest, eastMinutes));
}

/** How it stands now, and how it stood before an absence. */
const SPELLS = 2;
