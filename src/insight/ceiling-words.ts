import type { Ceiling } from './ceiling';
import { count, fixed } from '../grading/number-words';

/**
 * A ceiling as a player says it, in whole bpm: what is clean is rounded down, what breaks up.
 * @example ceilingWords({ kind: 'at', bars: 40, clean: { value: 96.4, interval: [92, 100] }, breaks: 103.2 })
 * // => clean at 96, breaks at 104
 * @example ceilingWords({ kind: 'above', bars: 12, bpm: 84 }) // => above 84, clean at all that was tried
 */
export function ceilingWords(ceiling: Ceiling): string {
  switch (ceiling.kind) {
    case 'at':
      return `clean at ${Math.floor(ceiling.clean.value)}, breaks at ${Math.ceil(ceiling.breaks)}`;
    case 'above':
      return `above ${fixed(ceiling.bpm, 0)}, clean at all that was tried`;
    case 'below':
      return `below ${fixed(ceiling.bpm, 0)}, clean at nothing that was tried`;
    case 'too few bars':
      return `${count(ceiling.bars, 'bar')}: six are needed to tell a ceiling`;
  }
}
