import { count, fixed, signed } from '../../words/numbers';
import { listed } from '../../text';
import type { Ceiling } from './ceiling';
import type { Change } from './change';
import type { PhraseProgress } from './progress';
import { dateOf } from '../history/weeks';
import { NOW_DAYS } from './spells';

/**
 * A ceiling as a player says it, in whole bpm rounded down, with its interval.
 * @example ceilingWords({ kind: 'at', bars: 40, clean: { value: 96.4, interval: [92, 100] } })
 * // => clean up to 96 (92 to 100)
 * @example ceilingWords({ kind: 'above', bars: 12, bpm: 84 }) // => at least 84: nothing faster was played
 */
export function ceilingWords(ceiling: Ceiling): string {
  switch (ceiling.kind) {
    case 'at': {
      const [low, high] = ceiling.clean.interval;
      return `clean up to ${Math.floor(ceiling.clean.value)} (${Math.floor(low)} to ${Math.ceil(high)})`;
    }
    case 'above':
      return `at least ${fixed(ceiling.bpm, 0)}: nothing faster was played`;
    case 'below':
      return `at most ${fixed(ceiling.bpm, 0)}: not clean at anything tried`;
    case 'too few bars':
      return `${count(ceiling.bars, 'bar')}: six are needed to tell a ceiling`;
  }
}

/** What became of it, without a full stop. @example changeWords({ kind: 'not enough', days: 1, perWeek: null }) // => not enough to tell a change */
export function changeWords(change: Change): string {
  switch (change.kind) {
    case 'up':
    case 'down': {
      const verb = change.kind === 'up' ? 'rose' : 'fell';
      return `${verb} from ${tempoWords(change.from)} to ${tempoWords(change.to)} in ${weekWords(change.weeks)}`;
    }
    case 'none':
      return `no change beyond noise in ${weekWords(change.weeks)}`;
    case 'not enough':
      return 'not enough to tell a change';
  }
}

/** How sure a change is; empty where nothing could be asked. */
export function perWeekWords(change: Change): string {
  if (change.perWeek === null) return '';
  const { value, interval } = change.perWeek;
  return `${signed(value, 1)} % a week, 90 % from ${signed(interval[0], 1)} to ${signed(interval[1], 1)}`;
}

/** A phrase's ceiling, with the variations that it is of where others stand better. */
export function phraseCeilingWords({ ceiling, weakest, variations }: PhraseProgress): string {
  const whose = limiting(weakest, [...variations]);
  return `${ceilingWords(ceiling)}${whose.length === 0 ? '' : `, by ${listed(whose)}`}`;
}

/** Variations that the phrase's ceiling is of, all that stand alike; none where all do. */
export function limiting(
  weakest: string | null,
  variations: readonly (readonly [name: string, of: { readonly ceiling: Ceiling }])[],
): readonly string[] {
  const own = variations.find(([name]) => name === weakest);
  if (own === undefined) return [];
  const said = tempoWords(own[1].ceiling);
  const alike = variations.filter(([, { ceiling }]) => tempoWords(ceiling) === said);
  return alike.length === variations.length ? [] : alike.map(([name]) => name);
}

/**
 * A ceiling in a word or two, in bpm: 96, at least 96, at most 96. Rounded down: a tempo that is clean.
 * @example tempoWords({ kind: 'below', bars: 12, bpm: 98 }) // => at most 98
 */
export function tempoWords(ceiling: Ceiling): string {
  switch (ceiling.kind) {
    case 'at':
      return String(Math.floor(ceiling.clean.value));
    case 'above':
      return `at least ${fixed(ceiling.bpm, 0)}`;
    case 'below':
      return `at most ${fixed(ceiling.bpm, 0)}`;
    case 'too few bars':
      return 'a tempo that can’t be told';
  }
}

/** True where the last three weeks played are the last three weeks. */
export function isNow({ days }: Pick<PhraseProgress, 'days'>, today: number): boolean {
  return days !== null && Math.floor(today) - days[1] <= NOW_DAYS;
}

/** For so long after an absence it is said: twice what *now* means. Common practice, no source. */
const BACK_DAYS = 2 * NOW_DAYS;

/**
 * Three weeks without it and there is no *now*: then when it was last played. For six weeks after such an absence, how it
 * stood before. Empty else.
 * @param today a day on the calendar of the bars
 */
export function awayWords({ days, before }: Pick<PhraseProgress, 'days' | 'before'>, today: number): string {
  if (days === null) return '';
  const [first, last] = days;
  const since = Math.floor(today) - last;
  if (since > NOW_DAYS)
    return `Not played for ${weekWords(since / 7)}: this is as it was on ${dateOf(last)}.`;
  if (before === null || Math.floor(today) - first > BACK_DAYS) return '';
  const away = `Back since ${dateOf(first)} after ${weekWords(before.awayDays / 7)} away`;
  if (before.ceiling.kind === 'too few bars') return `${away}.`;
  return `${away}; until ${dateOf(before.lastDay)} it was ${ceilingWords(before.ceiling)}.`;
}

/**
 * All that is to say of a phrase's ceiling, in sentences: absence, how it stands, by which variation, and what became of
 * it. Empty where there is nothing to say.
 */
export function standingWords(progress: PhraseProgress, today: number): string {
  const { ceiling, change } = progress;
  const changed = change.kind === 'not enough' ? '' : `; ${changeWords(change)}`;
  const sentences = [
    awayWords(progress, today),
    ceiling.kind === 'too few bars'
      ? ''
      : `Ceiling tempo, in bpm: ${phraseCeilingWords(progress)}${changed}.`,
  ];
  return sentences.filter((one) => one !== '').join(' ');
}

/** A stretch of time in weeks, or in days where it is under two. @example weekWords(8.1) // => eight weeks */
export function weekWords(weeks: number): string {
  const whole = Math.round(weeks);
  return whole < 2 ? count(Math.round(weeks * 7), 'day') : count(whole, 'week');
}
