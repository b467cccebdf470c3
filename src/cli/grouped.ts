import { phraseKeyOf } from '../sessions/take-record';
import type { Take } from '../sessions/types';
import { calledPlayer, playerKey } from './players';

/** Takes of one player and one phrase, oldest first. */
export interface Group<One> {
  readonly player: string;
  readonly phrase: string;
  readonly takes: readonly One[];
}

/** By player, then phrase, in the order they first come. Two players of one name are two where their ids say so. */
export function groupedTakes<One extends { readonly take: Take }>(
  all: readonly One[],
): readonly Group<One>[] {
  const players = new Map<string, Map<string, One[]>>();
  for (const one of all) {
    const phrases = players.get(playerKey(one.take)) ?? new Map<string, One[]>();
    players.set(playerKey(one.take), phrases);
    const key = phraseKeyOf(one.take.phrase);
    phrases.set(key, [...(phrases.get(key) ?? []), one]);
  }
  return [...players.values()].flatMap((phrases) =>
    [...phrases.values()].map((takes) => ({
      player: calledPlayer(takes[0].take),
      phrase: takes[0].take.phrase.title,
      takes: takes.toSorted((a, b) => Date.parse(a.take.recordedAt) - Date.parse(b.take.recordedAt)),
    })),
  );
}
