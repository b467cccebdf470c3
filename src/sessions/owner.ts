import type { KnownAs, Player } from './player';
import type { KeptFile } from './store-types';
import { TEACHER } from './teacher';
import type { Take } from './types';
import type { WeekSheet } from './week-sheet';

/**
 * What told whose a file is. *record*: it is here already, and somebody's. *id*: a player of this library. *sheet*: the
 * player of the week sheet it was played to. *teacher*: the take says that the teacher played it. *known*: somebody said so of such a file before. *name*: one player alone has
 * that name. *only one*: there is nobody else.
 */
export type OwnedBy = 'record' | 'id' | 'teacher' | 'sheet' | 'known' | 'name' | 'only one';

/** Whose a file is. */
export interface Owner {
  readonly playerId: string;
  readonly by: OwnedBy;
}

/** What this library knows when a file comes. */
export interface Known {
  readonly players: readonly Player[];
  /** Week sheets that are here, each somebody's. */
  readonly sheets: readonly Pick<KeptFile, 'id' | 'playerId'>[];
  /** Whose it is already where it is here; undefined or empty where it isn't, or is nobody's. */
  readonly before?: string;
}

/**
 * Whose take that is: never just theirs who has the turn.
 * @returns undefined where nothing tells: then somebody is to be asked
 */
export function ownerOfTake(
  { player, playerId, sheetId, teacher }: Pick<Take, 'player' | 'playerId' | 'sheetId' | 'teacher'>,
  known: Known,
): Owner | undefined {
  const { players, sheets, before } = known;
  const sheet = sheetId === undefined ? undefined : sheets.find(({ id }) => id === sheetId);
  return (
    (before === TEACHER ? { playerId: TEACHER, by: 'record' } : found(players, before, 'record')) ??
    (teacher === true ? { playerId: TEACHER, by: 'teacher' } : undefined) ??
    found(players, playerId, 'id') ??
    found(players, sheet?.playerId, 'sheet') ??
    byWord(players, { ...(playerId === undefined ? {} : { id: playerId }), name: player })
  );
}

/** Whose week sheet that is. @returns undefined where nothing tells */
export function ownerOfSheet(
  { id, student }: Pick<WeekSheet, 'id' | 'student'>,
  { players, sheets }: Known,
): Owner | undefined {
  const sheet = sheets.find((one) => one.id === id);
  return found(players, sheet?.playerId, 'record') ?? byWord(players, { name: student });
}

/**
 * What to keep with a player once somebody has said whose such a file is; undefined where it names nobody.
 * @example knownFrom({ player: 'Kim', playerId: 'kim-at-home' }) // => { id: 'kim-at-home' }
 */
export function knownFrom({ player, playerId }: Pick<Take, 'player' | 'playerId'>): KnownAs | undefined {
  if (playerId !== undefined && playerId !== '') return { id: playerId };
  return player.trim() === '' ? undefined : { name: player.trim() };
}

/** A player who is known by one thing more; the very one where that is nothing new. */
export function alsoKnownAs(player: Player, as: KnownAs | undefined): Player {
  const { knownAs = [] } = player;
  if (as === undefined || knownAs.some((one) => isAs(one, as))) return player;
  return { ...player, knownAs: [...knownAs, as] };
}

function byWord(players: readonly Player[], as: KnownAs): Owner | undefined {
  const said = players.filter(({ knownAs = [] }) => knownAs.some((one) => isAs(one, as)));
  if (said.length === 1) return { playerId: said[0].id, by: 'known' };
  const named = players.filter(({ name }) => name !== '' && sameName(name, as.name));
  if (named.length === 1) return { playerId: named[0].id, by: 'name' };
  return players.length === 1 ? { playerId: players[0].id, by: 'only one' } : undefined;
}

function found(players: readonly Player[], id: string | undefined, by: OwnedBy): Owner | undefined {
  return players.some((player) => player.id === id) ? { playerId: id ?? '', by } : undefined;
}

/** By the id where both have one: two of one name are two. */
function isAs(one: KnownAs, as: KnownAs): boolean {
  if (one.id !== undefined) return one.id === as.id;
  return one.name !== undefined && sameName(one.name, as.name);
}

const sameName = (name: string, other = ''): boolean =>
  name.trim().toLowerCase() === other.trim().toLowerCase();
