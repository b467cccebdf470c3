import type { Begun } from '../sessions/draft';
import type { WhoInNames } from '../sessions/file-name';
import type { Given } from '../sessions/given';
import type { OwnedBy } from '../sessions/owner';
import type { Player } from '../sessions/player';
import type { Unreadable } from '../sessions/store-types';
import type { TakeSummary } from '../sessions/take-record';
import type { TargetOutcome } from '../sessions/week/targets-met';
import type { WeekExercise, WeekSheet } from '../sessions/week-sheet';

/** What became of one file that was dropped or chosen. */
export interface AddedFile {
  readonly name: string;
  readonly added: boolean;
  /** What it was; or why it was refused. */
  readonly words: string;
  /** Where it was put; undefined for what is nobody's own. */
  readonly filed?: Filed;
}

/** A take or a week sheet of a file, and whose it is now. */
export interface Filed {
  readonly kind: 'take' | 'week sheet';
  readonly id: string;
  /** Empty where nothing tells: then somebody is asked. */
  readonly playerId: string;
  /** What told; *said*: a person did. Null where nothing does. */
  readonly by: OwnedBy | 'said' | null;
  /** Whose it calls itself: an id of another library, a name; either may be empty. */
  readonly named: { readonly id: string; readonly name: string };
}

/** What the browser says of its storage. */
export interface BrowserStorage {
  /** True where the browser has promised not to clear it by itself. */
  readonly lasting: boolean;
  readonly usedMb: number | null;
  readonly freeMb: number | null;
}

/** A week sheet as the page shows it, with what the takes played to it have reached so far. */
export interface SheetShown {
  readonly sheet: WeekSheet;
  /** Empty where nobody has said yet whose it is. */
  readonly playerId: string;
  /** Those that were played to it. */
  readonly takes: number;
  /** Its exercises in order, each with what the takes of it have reached. */
  readonly exercises: readonly ExerciseShown[];
}

export interface ExerciseShown {
  readonly exercise: WeekExercise;
  readonly takes: number;
  readonly outcomes: readonly TargetOutcome[];
}

/** The library of this browser, as far as the page shows it. */
export interface Library {
  readonly players: readonly Player[];
  /** Whose turn it is; empty before the store is open. */
  readonly playerId: string;
  /** All of their takes, newest first. */
  readonly takes: readonly TakeSummary[];
  /** Takes that the teacher played, whoever's lesson it was, newest first. */
  readonly teacherTakes: readonly TakeSummary[];
  /** Takes that are nobody's yet, newest first. */
  readonly nobodysTakes: readonly TakeSummary[];
  /** Week sheets that are theirs. */
  readonly sheets: readonly SheetShown[];
  /** The week sheet that is being played to; empty for none. */
  readonly sheetId: string;
  /** The week sheet that is being written; null where none is. */
  readonly draft: WeekSheet | null;
  /** Which of its exercises is written, from 0. */
  readonly draftAt: number;
  /** Whose that is; empty where it is nobody's. */
  readonly draftOf: string;
  /** What is begun of theirs, and not given yet. */
  readonly begun: readonly Begun[];
  /** What was given to them, newest first. */
  readonly given: readonly Given[];
  /** The words for the next line of their week's list. */
  readonly listWords: string;
  /** True once a warm-up was had since the page was opened, or another player's turn came. */
  readonly warmedUp: boolean;
  /** The file that is being read, of how many; null where none is. */
  readonly reading: { readonly name: string; readonly index: number; readonly of: number } | null;
  /** The last files, in the order they came. */
  readonly files: readonly AddedFile[];
  /** For how many months the archive keeps a player; null for ever. */
  readonly archiveMonths: number | null;
  /** Who stands in the names of files that are given out. */
  readonly inFileNames: WhoInNames;
  /** What is kept and can't be read. */
  readonly unreadable: readonly Unreadable[];
  /** Null before the browser was asked. */
  readonly storage: BrowserStorage | null;
  /** True where another tab has this app open. */
  readonly otherTab: boolean;
  /** Waiting: a newer version is here, for when the player says so. */
  readonly update: 'none' | 'waiting';
}

/** For how many months the archive may keep players; null for ever. */
export const archiveTerms: readonly (number | null)[] = [null, 6, 12, 24, 60];

export const emptyLibrary: Library = {
  players: [],
  playerId: '',
  takes: [],
  teacherTakes: [],
  nobodysTakes: [],
  sheets: [],
  sheetId: '',
  draft: null,
  draftAt: 0,
  draftOf: '',
  begun: [],
  given: [],
  listWords: '',
  warmedUp: false,
  reading: null,
  files: [],
  archiveMonths: null,
  inFileNames: 'code',
  unreadable: [],
  storage: null,
  otherTab: false,
  update: 'none',
};
