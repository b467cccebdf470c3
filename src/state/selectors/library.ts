import type { Phrase } from '../../exercises/types';
import { whoNamed } from '../../sessions/file-name';
import { codeFor, codesOf, playerLabels } from '../../sessions/player-code';
import type { Player } from '../../sessions/player';
import { exercisesOf } from '../../sessions/week/exercises';
import { phraseKeyOf } from '../../sessions/take-record';
import type { Hand } from '../../stroke';
import type { Take } from '../../sessions/types';
import type { Limits } from '../../settings';
import type { State } from '../state';
import type { Library } from '../library';

/** Whose turn it is; undefined before the store is open. */
export function currentPlayer({
  players,
  playerId,
}: Pick<Library, 'players' | 'playerId'>): Player | undefined {
  return players.find(({ id }) => id === playerId);
}

/** The hand that leads where nothing else says so. */
export const leadOf = (library: Pick<Library, 'players' | 'playerId'>): Hand =>
  currentPlayer(library)?.lead ?? 'R';

/** How strict the teacher is with whoever has the turn; as it is chosen on Phrase where nobody has it. */
export const limitsOf = ({ library, limits }: Pick<State, 'library' | 'limits'>): Limits =>
  currentPlayer(library)?.limits ?? limits;

/**
 * Whose limits are used, in words: those of the take that Review shows, else those that the next take is played by.
 */
export function limitsWords(state: Pick<State, 'library' | 'limits' | 'screen' | 'reviewed'>): string {
  const { library, limits, screen, reviewed } = state;
  const isOfTake = screen === 'review' && reviewed !== null;
  const used = isOfTake ? reviewed.take.limits : limits;
  const player = currentPlayer(library);
  if (player === undefined || (player.name === '' && player.limits === used)) return `Limits: ${used}.`;
  const whose = playerLabels(library.players).get(player.id) ?? '';
  if (player.limits === used) return `Limits: ${used}, ${whose}’s.`;
  return `Limits: ${used}, ${isOfTake ? 'the take’s' : 'as chosen'}; ${whose}’s are ${player.limits}.`;
}

/** Whether there may be a teacher: somebody gave the player a name, or there are several. */
export function teacherMay({ players }: Pick<Library, 'players'>): boolean {
  return players.length > 1 || players.some(({ name }) => name !== '');
}

/**
 * Who stands in the name of a player's file, as it was wished; empty for nobody, and where nobody has a name.
 * @param called what they are called on it, where that may be otherwise
 */
export function whoInFileName(
  { players, inFileNames }: Pick<Library, 'players' | 'inFileNames'>,
  playerId: string,
  called = '',
): string {
  const player = players.find(({ id }) => id === playerId);
  const name = called.trim() === '' ? (player?.name ?? '') : called;
  if (name === '') return '';
  const isNamed = player !== undefined && player.name !== '';
  const code = isNamed ? codesOf(players).get(playerId) : undefined;
  return whoNamed(inFileNames, { code: code ?? codeFor(name, []), name });
}

/** What a take that is about to be played says of whose it is and how it came about. */
export function takeMarks(
  library: Library,
  phrase: Phrase,
): Pick<Take, 'player' | 'playerId' | 'cold' | 'sheetId'> {
  const player = currentPlayer(library);
  return {
    player: player?.name ?? '',
    ...(player === undefined ? {} : { playerId: player.id }),
    ...(library.warmedUp ? { cold: false } : {}),
    ...(isOfSheet(library, phrase) ? { sheetId: library.sheetId } : {}),
  };
}

/** A take of another phrase is not played to the week sheet. */
function isOfSheet({ sheets, sheetId }: Library, phrase: Phrase): boolean {
  const found = sheets.find(({ sheet }) => sheet.id === sheetId);
  const key = phraseKeyOf(phrase);
  return found !== undefined && exercisesOf(found.sheet).some((one) => phraseKeyOf(one.phrase) === key);
}
