import type { Take } from './types';

/** Whose takes are in a library that the teacher played: no player's, so that they count in nobody's. */
export const TEACHER = 'teacher';

/** What the teacher is called on the page. */
export const TEACHER_NAME = 'the teacher';

/** Whose a take says it is: a player's id, the teacher's; undefined where it doesn't say. */
export function saysItIs({ teacher, playerId }: Pick<Take, 'teacher' | 'playerId'>): string | undefined {
  return teacher === true ? TEACHER : playerId;
}
