import type { RawHit } from '../stroke';
import type { PhraseFile } from './phrase-file';
import type { Player } from './player';
import type { Graded, TakeSummary } from './take-record';
import type { Rig, Take } from './types';

/** All of a take that is known before its first stroke. */
export type TakeOpening = Omit<Take, 'hits'>;

/** A set-up kept under its id. */
export interface KeptRig {
  readonly id: string;
  readonly rig: Rig;
  /** ISO 8601: of two of one id the newer wins. */
  readonly changedAt: string;
}

/** A week sheet or a note: a file of its own format, with whose it is. */
export interface KeptFile {
  readonly id: string;
  readonly playerId: string;
  readonly changedAt: string;
  /** As its own format says. */
  readonly file: unknown;
}

/** What is kept beside takes, by collection. Phrases go by their name, all else by its id. */
export interface Collections {
  players: Player;
  phrases: PhraseFile;
  rigs: KeptRig;
  sheets: KeptFile;
  notes: KeptFile;
}
export type CollectionName = keyof Collections;
export const collections: readonly CollectionName[] = ['players', 'phrases', 'rigs', 'sheets', 'notes'];

/** Things to put away in one go. */
export type Batch = Readonly<{ [Name in CollectionName]?: readonly Collections[Name][] }> & {
  readonly takes?: readonly { readonly take: Take; readonly summary: TakeSummary }[];
};

/** Something that is kept and can't be read: it is out of the way of all else, and nothing of it is changed. */
export interface Unreadable {
  readonly from: CollectionName | 'takes';
  readonly key: IDBValidKey;
  /** Place, rule and value. */
  readonly reason: string;
  /** As it lies there; undefined where the browser itself can't read it. */
  readonly value: unknown;
}

/** Which takes to list; all of them where nothing is said. */
interface TakeQuery {
  readonly playerId?: string;
  /** No more than these, the newest. */
  readonly most?: number;
}

/** The library of this browser. Its first four methods are what a recorder needs. */
export interface BrowserStore {
  /** False where what is put here ends with the page. */
  readonly lasts: boolean;
  begin(opening: TakeOpening): Promise<void>;
  /** @returns false where the take is not begun here: the library was deleted since. Nothing is kept then. */
  append(takeId: string, chunk: number, hits: readonly RawHit[]): Promise<boolean>;
  /** The take is kept and its running chunks are forgotten, both or neither. */
  finish(take: Take): Promise<void>;
  discard(takeId: string): Promise<void>;
  /**
   * Keeps what is left of takes whose page died while they were played, and returns them. Call it once when the
   * page opens. A take that another page is still playing is left alone until that page ends it or dies; one with
   * under two hits is dropped.
   * @param later told each take whose page turned out to be dying
   */
  recover(later?: (take: Take) => void): Promise<readonly Take[]>;
  /** Newest first. */
  list(query?: TakeQuery): Promise<readonly TakeSummary[]>;
  /** The same, each record whole: a list's have of their measures only those that are followed over weeks. */
  records(playerId?: string): Promise<readonly TakeSummary[]>;
  count(playerId?: string): Promise<number>;
  /** What lists say of one take; undefined where it is not here. */
  record(takeId: string): Promise<TakeSummary | undefined>;
  get(takeId: string): Promise<Take | undefined>;
  put(take: Take): Promise<void>;
  /** Keeps what a take's report says beside it, for lists and History. A take that is not there is left so. */
  describe(takeId: string, sentence: string, graded?: Graded | null): Promise<void>;
  delete(takeId: string): Promise<void>;
  /** Another owner for these takes; the takes themselves stay as they were played. */
  give(takeIds: readonly string[], playerId: string): Promise<void>;
  /** All of a collection that reads; the rest is set aside. */
  all<Name extends CollectionName>(collection: Name): Promise<readonly Collections[Name][]>;
  /** One player's week sheets or notes, without all the others'. */
  filesOf(collection: 'sheets' | 'notes', playerId: string): Promise<readonly KeptFile[]>;
  place<Name extends CollectionName>(collection: Name, thing: Collections[Name]): Promise<void>;
  /**
   * Changes one thing as it stands just then, in one go: another window may have changed it since it was shown.
   * @param step pure: it may be asked twice. What is not there is left so
   */
  alter<Name extends CollectionName>(
    collection: Name,
    key: string,
    step: (thing: Collections[Name]) => Collections[Name],
  ): Promise<void>;
  remove(collection: CollectionName, key: string): Promise<void>;
  /** Puts all of it away, or nothing where anything fails. */
  putAll(batch: Batch): Promise<void>;
  /** Forgets one person wholly: record, takes, week sheets, notes; all or nothing. */
  forgetPlayer(playerId: string): Promise<void>;
  /** All that is the one's becomes the other's, and the one is forgotten; all or nothing. */
  mergePlayers(fromId: string, intoId: string): Promise<void>;
  /** What can't be read. A take that is in no list because its record is damaged or missing is listed again by it. */
  unreadable(): Promise<readonly Unreadable[]>;
  removeUnreadable(unreadable: Pick<Unreadable, 'from' | 'key'>): Promise<void>;
  /** A small thing kept by name: the rig in use, the player in turn. Undefined where nothing was kept. */
  kept(name: string): Promise<unknown>;
  keep(name: string, value: unknown): Promise<void>;
  close(): void;
}
