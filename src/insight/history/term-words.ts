import { fixed } from '../../words/numbers';
import type { Ceiling } from '../ceiling/ceiling';
import type { PhraseProgress } from '../ceiling/progress';
import { NOW_DAYS } from '../ceiling/spells';
import { weekWords } from '../ceiling/words';
import { dateOf } from './weeks';

/**
 * A ceiling as parents read it.
 * @example steadyWords({ kind: 'above', bars: 12, bpm: 84 }) // => 84 bpm or more
 * @example steadyWords({ kind: 'below', bars: 12, bpm: 98 }) // => not yet at 98 bpm
 */
export function steadyWords(ceiling: Ceiling): string {
  switch (ceiling.kind) {
    case 'at':
      return `${Math.floor(ceiling.clean.value)} bpm`;
    case 'above':
      return `${fixed(ceiling.bpm, 0)} bpm or more`;
    case 'below':
      return `not yet at ${fixed(ceiling.bpm, 0)} bpm`;
    case 'too few bars':
      return 'too few bars to tell';
  }
}

/**
 * What became of a phrase over a term, as parents read it: up, down or the same, time away, and when it was last played.
 * @param end the term's last day
 */
export function overTermWords({ change, before, days }: PhraseProgress, end: number): string {
  if (days === null) return 'not told';
  const parts: string[] = [];
  if (before !== null) {
    parts.push(
      `${steadyWords(before.ceiling)} until ${dateOf(before.lastDay)}, then ${weekWords(before.awayDays / 7)} away`,
    );
  }
  if (change.kind === 'up' || change.kind === 'down') {
    const from = steadyWords(change.from);
    parts.push(
      change.from.kind === 'below' ? `${change.kind}; at first ${from}` : `${change.kind} from ${from}`,
    );
  } else if (change.kind === 'none') parts.push('the same');
  if (end - days[1] > NOW_DAYS) parts.push(`not played since ${dateOf(days[1])}`);
  return parts.length === 0 ? 'no change that can be told' : parts.join('; ');
}
