import type { Choice } from '../grading/chosen';
import type { Take } from './types';

/** A take with what a teacher has come first; null: what its report leads with. */
export function withFirst(take: Take, choice: Choice | null): Take {
  const { first: before, ...left } = take;
  if (choice !== null) return { ...left, first: choice };
  return before === undefined ? take : left;
}
