import { freeCode } from '../sessions/player-code';
import { TEACHER, TEACHER_NAME } from '../sessions/teacher';
import type { Take } from '../sessions/types';

/** Whose take it is: the teacher's where it says so, by id where it has one, else by name. */
export function playerKey({ playerId = '', player, teacher }: Take): string {
  if (teacher === true) return TEACHER;
  return playerId === '' ? `named ${player.trim().toLowerCase()}` : playerId;
}

/** What its player is called; the teacher's takes are no player's. */
export const calledPlayer = ({ player, teacher }: Take): string => (teacher === true ? TEACHER_NAME : player);

/**
 * A short code a player: initials, with a number where two have the same, in the order they come. Full names stay out of
 * tables that are passed on.
 */
export function playerCodes(takes: readonly Take[]): ReadonlyMap<string, string> {
  const codes = new Map<string, string>();
  const used = new Set<string>();
  for (const take of takes) {
    const key = playerKey(take);
    if (codes.has(key)) continue;
    const code = take.teacher === true ? TEACHER : freeCode(take.player, used);
    used.add(code);
    codes.set(key, code);
  }
  return codes;
}

/** Players of some takes, in the order they come. */
export const playersOf = (takes: readonly Take[]): readonly string[] => [...new Set(takes.map(playerKey))];
