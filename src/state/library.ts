import type { Phrase } from '../exercises/types';
import type { Player } from '../sessions/player';
import type { WeekSheet } from '../sessions/week-sheet';
import { phraseKeyOf, type TakeSummary } from '../sessions/take-record';
import type { Take } from '../sessions/types';
import { firstHistory } from './history';
import type { SheetShown } from './sheets';
import type { Sitting } from './state';

/** What became of one file that was dropped or chosen. */
export interface FileTold {
  readonly name: string;
  readonly taken: boolean;
  /** What it was, and whose it is now; or why it was refused. */
  readonly words: string;
}

/** What the browser says of its storage. Null before it was asked. */
export interface Room {
  /** True where the browser has promised not to clear it by itself. */
  readonly lasting: boolean;
  readonly usedMb: number | null;
  readonly freeMb: number | null;
}

/** The library of this browser, as far as the page shows it. */
export interface Keeping {
  readonly players: readonly Player[];
  /** Whose turn it is; empty before the store is open. */
  readonly playerId: string;
  /** All of their takes, newest first. */
  readonly takes: readonly TakeSummary[];
  /** Week sheets that are theirs. */
  readonly sheets: readonly SheetShown[];
  /** The week sheet that is being played to; empty for none. */
  readonly sheetId: string;
  /** The week sheet that is being written; null where none is. */
  readonly draft: WeekSheet | null;
  /** True once a warm-up was had in this sitting. */
  readonly warmedUp: boolean;
  /** The last files, in the order they came. */
  readonly files: readonly FileTold[];
  /** True where a player's name may stand in the name of a file. */
  readonly namesInFiles: boolean;
  readonly room: Room | null;
  /** True where another tab has this app open. */
  readonly otherTab: boolean;
  /** Waiting: a newer version is here, for when the player says so. */
  readonly update: 'none' | 'waiting';
}

export const nothingKept: Keeping = {
  players: [],
  playerId: '',
  takes: [],
  sheets: [],
  sheetId: '',
  draft: null,
  warmedUp: false,
  files: [],
  namesInFiles: false,
  room: null,
  otherTab: false,
  update: 'none',
};

/** The player in turn; undefined before the store is open. */
export function playerInTurn({ players, playerId }: Keeping): Player | undefined {
  return players.find(({ id }) => id === playerId);
}

/** The library changed. With another player's turn come their limits. */
export function withKeeping(sitting: Sitting, change: Partial<Keeping>): Sitting {
  const keeping = { ...sitting.keeping, ...change };
  if (keeping.playerId === sitting.keeping.playerId) return { ...sitting, keeping };
  const limits = playerInTurn(keeping)?.limits ?? sitting.limits;
  const warmedUp = false;
  return {
    ...sitting,
    keeping: { ...keeping, warmedUp, sheetId: '', draft: null },
    limits,
    history: firstHistory,
    // A clock that was started before the library was open is theirs: nobody else had the turn.
    today: sitting.keeping.playerId === '' ? sitting.today : { ...sitting.today, clock: null },
  };
}

/** What a take that is about to be played says of whose it is and how it came about. */
export function takeMarks(
  keeping: Keeping,
  phrase: Phrase,
): Pick<Take, 'player' | 'playerId' | 'cold' | 'sheetId'> {
  const player = playerInTurn(keeping);
  return {
    player: player?.name ?? '',
    ...(player === undefined ? {} : { playerId: player.id }),
    ...(keeping.warmedUp ? { cold: false } : {}),
    ...(isOfSheet(keeping, phrase) ? { sheetId: keeping.sheetId } : {}),
  };
}

/** A take of another phrase is not played to the week sheet. */
function isOfSheet({ sheets, sheetId }: Keeping, phrase: Phrase): boolean {
  const found = sheets.find(({ sheet }) => sheet.id === sheetId);
  return found !== undefined && phraseKeyOf(found.sheet.phrase) === phraseKeyOf(phrase);
}
