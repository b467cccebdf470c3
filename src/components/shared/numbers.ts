import { isSticking } from '../../exercises/sticking';
import { capital as upper } from '../../text';
export { fixed, signed } from '../../words/numbers';

/**
 * A fraction as a CSS length.
 * @example percent(0.125) // => '12.5%'
 */
export function percent(fraction: number): string {
  return `${Number((fraction * 100).toFixed(3))}%`;
}

/** A day and a time of day, in the reader's own way of writing them. */
export function dayAndTime(iso: string): string {
  const date = new Date(iso);
  if (Number.isNaN(date.getTime())) return iso;
  return date.toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
}

/** The first letter large, the rest as it is; sticking as it stands. */
export function capital(words: string): string {
  if (isSticking(words)) return words;
  return upper(words);
}
