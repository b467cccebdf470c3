import type { NoteText } from '../sessions/paper/lesson-note';

/** A lesson note that is being written in Review. */
export interface NoteDraft {
  /** The take it is about, and whose that is: empty where it is nobody's. */
  readonly takeId: string;
  readonly playerId: string;
  readonly text: NoteText;
  /** The teacher's own phrases, newest first. */
  readonly sayings: readonly string[];
}

/** More than these are a list nobody reads. */
export const MOST_SAYINGS = 30;

/**
 * The teacher's phrases with another one, newest first, each once.
 * @example withSaying(['Low sticks.'], ' Slow is fine. ') // => ['Slow is fine.', 'Low sticks.']
 */
export function withSaying(sayings: readonly string[], saying: string): readonly string[] {
  const own = saying.trim();
  return own === '' ? sayings : [own, ...sayings.filter((one) => one !== own)].slice(0, MOST_SAYINGS);
}

/** What a store gave back, as phrases; anything else is left out. */
export function sayingsFrom(data: unknown): readonly string[] {
  return Array.isArray(data) ? data.filter((one) => typeof one === 'string').slice(0, MOST_SAYINGS) : [];
}
