import * as v from 'valibot';
import type { Phrase } from '../exercises/types';
import type { Limits } from '../settings';
import type { Hand } from '../stroke';
import type { Bpm } from '../units';
import { bpm, filled, isoDate, oneOf, phrase, text } from './schema';

/** One line of the list that a teacher sets for a week. */
export interface WeekItem {
  readonly phrase: Phrase;
  readonly bpm: Bpm;
  /** The teacher's own words; empty for none. */
  readonly words: string;
}

/**
 * One person whose takes are kept apart. Initials or a number will do for a name; an empty one is shown as "You".
 * Takes and week sheets name a player by `id`, so that a new name changes one record and no take.
 */
export interface Player {
  readonly id: string;
  readonly name: string;
  /** The hand that leads where nothing else says so. */
  readonly lead: Hand;
  /** How strict the teacher is with this player. */
  readonly limits: Limits;
  /** ISO 8601: of two records of one player the newer wins. */
  readonly changedAt: string;
  /** What Today puts between warm-up and finish, in this order; absent where nobody set a list. */
  readonly week?: readonly WeekItem[];
}

export const playerSchema = v.looseObject({
  id: filled,
  name: text,
  lead: oneOf(['R', 'L']),
  limits: oneOf(['first year', 'working', 'recital']),
  changedAt: isoDate,
  week: v.exactOptional(v.array(v.looseObject({ phrase, bpm, words: text }), 'must be a list')),
});

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
