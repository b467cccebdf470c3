import { remedyIsFor, type TakeSummary } from '../../sessions/take-record';
import type { Term, TermRow } from '../../sessions/paper/term-report';
import { progressNow } from './ceilings';
import { overTermWords, steadyWords } from './term-words';
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

/**
 * What a term report tells of the days it is of; an empty day is open to that side. A phrase stands as History has it: by
 * its own bars on one rig. A remedy's minutes count with the phrase that it is for, and say nothing of how fast that is.
 * @param takes one player's
 */
export function termOf(
  takes: readonly TakeSummary[],
  { fromDay, toDay }: Pick<TermDraft, 'fromDay' | 'toDay'>,
  eastMinutes: number,
): Term {
  const dayIn = ({ recordedAt }: TakeSummary): string => dateOf(dayOf(recordedAt, eastMinutes));
  const own = takes
    .filter((take) => dayIn(take) >= fromDay && (toDay === '' || dayIn(take) <= toDay))
    .sort((a, b) => (a.recordedAt < b.recordedAt ? -1 : a.recordedAt > b.recordedAt ? 1 : 0));
  const days = [...new Set(own.map(dayIn))];
  const last = toDay === '' ? days.at(-1) : toDay;
  const end = last === undefined ? 0 : dayOf(last, 0);
  const rows = [...groupedBy(own, ({ remedy, title }) => remedyIsFor(remedy) ?? title)].map(
    ([title, theirs]) => rowOf(title, theirs, end, eastMinutes),
  );
  return { rows, takes: own.length, days };
}

function rowOf(title: string, takes: readonly TakeSummary[], end: number, eastMinutes: number): TermRow {
  const minutes = takes.reduce((sum, take) => sum + take.minutes, 0);
  const phrase = takes.filter(({ remedy }) => remedy === '');
  // Pads answer differently, so rigs are never joined: by the one it was played on most.
  const rigs = [...groupedBy(phrase, ({ phraseKey, rigId }) => `${phraseKey} ${rigId}`).values()];
  const [most = []] = rigs.sort((a, b) => b.length - a.length);
  const progress = progressNow(most, eastMinutes);
  const where = rigs.length < 2 ? '' : `, on ${most[0].rigName}`;
  return {
    title,
    minutes,
    steady: `${steadyWords(progress.ceiling)}${where}`,
    change: overTermWords(progress, end),
  };
}

function groupedBy(
  takes: readonly TakeSummary[],
  keyOf: (take: TakeSummary) => string,
): ReadonlyMap<string, readonly TakeSummary[]> {
  const groups = new Map<string, TakeSummary[]>();
  for (const take of takes) {
    const group = groups.get(keyOf(take));
    if (group === undefined) groups.set(keyOf(take), [take]);
    else group.push(take);
  }
  return groups;
}
