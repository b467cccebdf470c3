import type { TakeSummary } from '../../sessions/take-record';
import { termTakeOf, type TermTake } from '../../sessions/paper/term-report';
import type { TermDraft } from './view';
import { dateOf, dayOf } from './weeks';

/** About a school term. */
const TERM_DAYS = 120;

/** A term report as it is first shown: up to the newest take, from the first one in a term's time before it. */
export function firstTerm(takes: readonly TakeSummary[], student: string, eastMinutes: number): TermDraft {
  const days = takes.map(({ recordedAt }) => Math.floor(dayOf(recordedAt, eastMinutes)));
  const to = days.reduce((most, day) => Math.max(most, day), 0);
  const from = days.reduce((least, day) => (day > to - TERM_DAYS ? Math.min(least, day) : least), to);
  return { student, fromDay: dateOf(from), toDay: dateOf(to), words: '' };
}

/** Takes of the days that a term report is of; an empty day is open to that side. */
export function termTakes(
  takes: readonly TakeSummary[],
  { fromDay, toDay }: TermDraft,
  eastMinutes: number,
): readonly TermTake[] {
  return takes
    .filter(({ recordedAt }) => {
      const day = dateOf(dayOf(recordedAt, eastMinutes));
      return day >= fromDay && (toDay === '' || day <= toDay);
    })
    .map(termTakeOf);
}
