import type { Report } from '../grading/types';
import { weakestFirst } from '../grading/weakest';

/** Whether the weakest bar is asked for before the sentence says it, and how often it was heard. */
export interface Guesses {
  readonly on: boolean;
  readonly heard: number;
  readonly of: number;
}

/**
 * True where the guess names the weakest variation, or the one that the sentence names beside it; null ("all hold")
 * where all do.
 */
export function isRight(report: Report, choice: string | null): boolean {
  const [first, second] = weakestFirst(report.variations);
  if (first === undefined) return false;
  if (choice === null) return first.supported >= 0;
  if (choice === first.variation.name) return true;
  const tied = second !== undefined && second.supported - first.supported < report.settings['weakest.tie'];
  return tied && choice === second.variation.name;
}

/** What was kept in the store, or undefined where it is nothing of the kind. */
export function guessesFrom(kept: unknown): Guesses | undefined {
  if (typeof kept !== 'object' || kept === null) return undefined;
  const { on, heard, of } = kept as Partial<Record<keyof Guesses, unknown>>;
  const isCount = (one: unknown): one is number =>
    typeof one === 'number' && Number.isInteger(one) && one >= 0;
  if (typeof on !== 'boolean' || !isCount(heard) || !isCount(of) || heard > of) return undefined;
  return { on, heard, of };
}
