import type { NoteText } from '../sessions/paper/lesson-note';

/** A lesson note that is being written in Review. */
export interface Noting {
  readonly text: NoteText;
  /** The teacher's own phrases, newest first. */
  readonly sayings: readonly string[];
}

export type NoteSaid =
  | { readonly kind: 'open'; readonly text: NoteText; readonly sayings: readonly string[] }
  | { readonly kind: 'change'; readonly change: Partial<NoteText> }
  /** Puts one of the teacher's phrases at the end of the words. */
  | { readonly kind: 'add'; readonly saying: string }
  | { readonly kind: 'sayings'; readonly sayings: readonly string[] }
  | { readonly kind: 'close' };

/** More than these are a list nobody reads. */
export const MOST_SAYINGS = 30;

/** The note after something was said of it; null while none is written. */
export function noteHeard(noting: Noting | null, said: NoteSaid): Noting | null {
  if (said.kind === 'open') return { text: said.text, sayings: said.sayings };
  if (noting === null || said.kind === 'close') return null;
  const { text } = noting;
  switch (said.kind) {
    case 'change':
      return { ...noting, text: { ...text, ...said.change } };
    case 'add':
      return {
        ...noting,
        text: {
          ...text,
          words: [text.words.trimEnd(), said.saying].filter((line) => line !== '').join('\n'),
        },
      };
    case 'sayings':
      return { ...noting, sayings: said.sayings };
  }
}

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
