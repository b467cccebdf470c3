import { count, fixed, signed } from '../../grading/number-words';
import type { Ceiling } from './ceiling';
import type { Change } from './change';
import type { PhraseProgress } from './progress';
import { NOW_DAYS } from './spells';

/**
 * A ceiling as a player says it, in whole bpm rounded down, with its interval.
 * @example ceilingWords({ kind: 'at', bars: 40, clean: { value: 96.4, interval: [92, 100] } })
 * // => clean up to 96 (92 to 100)
 * @example ceilingWords({ kind: 'above', bars: 12, bpm: 84 }) // => above 84: nothing faster was played
 */
export function ceilingWords(ceiling: Ceiling): string {
  switch (ceiling.kind) {
    case 'at': {
      const [low, high] = ceiling.clean.interval;
      return `clean up to ${Math.floor(ceiling.clean.value)} (${Math.floor(low)} to ${Math.ceil(high)})`;
    }
    case 'above':
      return `above ${fixed(ceiling.bpm, 0)}: nothing faster was played`;
    case 'below':
      return `under ${fixed(ceiling.bpm, 0)}: not clean at anything tried`;
    case 'too few bars':
      return `${count(ceiling.bars, 'bar')}: six are needed to tell a ceiling`;
  }
}

/** What became of it, without a full stop. @example changeWords({ kind: 'not enough', days: 1 }) // => not enough to tell a change */
export function changeWords(change: Change): string {
  switch (change.kind) {
    case 'up':
    case 'down': {
      const verb = change.kind === 'up' ? 'rose' : 'fell';
      return `${verb} from ${fixed(change.from, 0)} to ${fixed(change.to, 0)} in ${weekWords(change.weeks)}`;
    }
    case 'none':
      return `no change beyond noise in ${weekWords(change.weeks)}`;
    case 'not enough':
      return 'not enough to tell a change';
  }
}

/** How sure a change is; empty where nothing could be asked. */
export function perWeekWords(change: Change): string {
  if (change.kind === 'not enough') return '';
  const { value, interval } = change.perWeek;
  return `${signed(value, 1)} % a week, 90 % from ${signed(interval[0], 1)} to ${signed(interval[1], 1)}`;
}

/** A phrase's ceiling, its weakest variation named where there are several. */
export function phraseCeilingWords({ ceiling, weakest, variations }: PhraseProgress): string {
  const whose = weakest === null || variations.size < 2 ? '' : `, by ${weakest}`;
  return `${ceilingWords(ceiling)}${whose}`;
}

/** Three weeks without it and there is no *now*: then when it was last played; empty else. */
export function absenceWords(lastDay: number, today: number, lastDate: string): string {
  const days = Math.floor(today) - Math.floor(lastDay);
  if (days <= NOW_DAYS) return '';
  return `Not played for ${weekWords(days / 7)}: this is as it was on ${lastDate}.`;
}

function weekWords(weeks: number): string {
  const whole = Math.round(weeks);
  return whole < 2 ? count(Math.round(weeks * 7), 'day') : count(whole, 'week');
}
