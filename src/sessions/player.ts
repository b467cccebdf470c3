import * as v from 'valibot';
import { bpm, filled, isoDate, limits, oneOf, phrase, text } from './schema';
import type { Stored } from './stored';

/** One line of the list that a teacher sets for a week. */
const weekItem = v.looseObject({
  phrase,
  bpm,
  /** The teacher's own words; empty for none. */
  words: text,
});
export type WeekItem = Stored<typeof weekItem>;

/** How files from elsewhere call a player: the id they have in another library, or a name. */
const knownAs = v.looseObject({ id: v.exactOptional(filled), name: v.exactOptional(filled) });
export type KnownAs = Stored<typeof knownAs>;

/**
 * One person whose takes are kept apart. Initials or a number will do for a name; an empty one is shown as "You".
 * Takes and week sheets name a player by `id`, so that a new name changes one record and no take.
 */
export const playerSchema = v.looseObject({
  id: filled,
  name: text,
  /** The hand that leads where nothing else says so. */
  lead: oneOf(['R', 'L']),
  /** How strict the teacher is with this player. */
  limits,
  /** Of two records of one player the newer wins. */
  changedAt: isoDate,
  /** Their short code; absent where nobody gave one yet: then it is found from the name. */
  code: v.exactOptional(filled),
  /** What Today puts between warm-up and finish, in this order; absent where nobody set a list. */
  week: v.exactOptional(v.array(weekItem, 'must be a list')),
  /** What takes of theirs from elsewhere are known by, since somebody was asked. */
  knownAs: v.exactOptional(v.array(knownAs, 'must be a list')),
  /** Groups they are in: a day, a school. */
  groups: v.exactOptional(v.array(filled, 'must be a list')),
  /** Since when they are in the archive: out of every list of whose turn it may be, and all that is theirs is kept. */
  archivedAt: v.exactOptional(isoDate),
});
export type Player = Stored<typeof playerSchema>;

/** Longer names are cut: a name stands in one line. */
export const LONGEST_NAME = 60;

/**
 * A player as nobody has changed it yet.
 * @example newPlayer('p1', ' Kim ', '2026-11-25T12:00:00.000Z').name // => 'Kim'
 */
export function newPlayer(id: string, name: string, changedAt: string): Player {
  return { id, name: tidyName(name), lead: 'R', limits: 'working', changedAt };
}

/**
 * A name in one line, no longer than one.
 * @example tidyName('  Kim\n P. ') // => 'Kim P.'
 */
export function tidyName(name: string): string {
  return name.replaceAll(/\s+/g, ' ').trim().slice(0, LONGEST_NAME).trim();
}

/**
 * What a player is called on the page.
 * @example playerName({ name: '' }) // => 'You'
 */
export function playerName({ name }: Pick<Player, 'name'>): string {
  return name === '' ? 'You' : name;
}

/** Those who may have a turn: who is in the archive may not. */
export const activePlayers = (players: readonly Player[]): readonly Player[] =>
  players.filter(({ archivedAt }) => archivedAt === undefined);

/** Back from the archive. */
export function broughtBack(player: Player): Player {
  const { archivedAt, ...rest } = player;
  return archivedAt === undefined ? player : rest;
}

/**
 * Groups as they are typed, with commas between.
 * @example groupsFrom(' Tuesday,, North school ') // => ['Tuesday', 'North school']
 */
export function groupsFrom(typed: string): readonly string[] {
  return [...new Set(typed.split(',').map(tidyName))].filter((group) => group !== '');
}

/** When somebody who is in the archive is deleted; undefined for never. @param months how long the archive keeps them, null for ever */
export function deletedAt({ archivedAt }: Player, months: number | null): Date | undefined {
  if (archivedAt === undefined || months === null) return undefined;
  const day = new Date(archivedAt);
  day.setUTCMonth(day.getUTCMonth() + months);
  return day;
}
