import { openDB, unwrap, type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames } from 'idb';
import type { RawHit } from '../stroke';
import type { PhraseFile } from './phrase-file';
import type { Player } from './player';
import { isClosed, isCutOff, isHalfMade, isHeld, keepsNothing, openingFailed, worded } from './storage-words';
import type { KeptFile, KeptRig, TakeOpening } from './store-types';
import { STORE_VERSION, upgradeStore } from './store-upgrade';
import type { TakeSummary } from './take-record';
import type { Take } from './types';

const NAME = 'evenhand';
/** A database that is cut off this often within one work has no use. */
const MOST_TRIES = 3;

interface StoreSchema extends DBSchema {
  takes: { key: string; value: Take };
  summaries: {
    key: string;
    value: TakeSummary;
    indexes: { when: string; player: [playerId: string, recordedAt: string] };
  };
  /** Summaries packed for quick reading; `stale`: ids of those that changed since. */
  packed: { key: number; value: string };
  stale: { key: string; value: true };
  running: { key: string; value: TakeOpening };
  chunks: { key: [takeId: string, chunk: number]; value: readonly RawHit[] };
  small: { key: string; value: unknown };
  players: { key: string; value: Player };
  phrases: { key: string; value: PhraseFile };
  rigs: { key: string; value: KeptRig };
  sheets: { key: string; value: KeptFile; indexes: { player: string } };
  notes: { key: string; value: KeptFile; indexes: { player: string } };
}

/** All that a database of this version has. */
const ALL: readonly StoreNames<StoreSchema>[] = [
  'takes',
  'summaries',
  'packed',
  'stale',
  'running',
  'chunks',
  'small',
  'players',
  'phrases',
  'rigs',
  'sheets',
  'notes',
];

export type StoreDb = IDBPDatabase<StoreSchema>;
export type StoreChange<Names extends readonly StoreNames<StoreSchema>[]> = IDBPTransaction<
  StoreSchema,
  [...Names],
  'readwrite'
>;

/** The way to the one database of this app in this browser. A browser may cut it off at any time. */
interface StoreConnection {
  /**
   * Does `work` with the database. Where the browser has cut it off meanwhile it is opened anew and the work is done once
   * more, so a work must be one that may be done twice: transactions that are whole or nothing.
   * @throws InputError that says why it could not be done: no space, closed by the browser, taken over by a newer page
   */
  use<T>(work: (db: StoreDb) => Promise<T>): Promise<T>;
  close(): void;
}

/**
 * @param deleted told when the database was deleted under the page and a new, empty one stands in its place
 * @throws InputError where the browser keeps nothing, or a page of another version holds the database
 */
export async function connectStore(deleted: () => void = () => undefined): Promise<StoreConnection> {
  let current: Promise<StoreDb> | null = null;
  let isOver = false;
  let wasOpen = false;

  async function opened(): Promise<StoreDb> {
    const { db, isNew } = await openedOnce(() => (current = null)).catch((error: unknown) => {
      throw openingFailed(error, wasOpen);
    });
    if (isOver) db.close();
    const missing = ALL.filter((name) => !db.objectStoreNames.contains(name));
    if (missing.length > 0) {
      db.close();
      throw isHalfMade(missing);
    }
    if (isNew && wasOpen) deleted();
    wasOpen = true;
    return db;
  }

  /** One opening at a time; one that fails is tried anew by whoever asks next. */
  function database(): Promise<StoreDb> {
    if (isOver) return Promise.reject(isClosed());
    if (current !== null) return current;
    const opening = opened();
    current = opening;
    opening.catch(() => {
      if (current === opening) current = null;
    });
    return opening;
  }

  async function used<T>(work: (db: StoreDb) => Promise<T>, triesLeft: number): Promise<T> {
    const asked = database();
    const db = await asked;
    try {
      return await work(db);
    } catch (error) {
      if (triesLeft === 1 || !isCutOff(error)) throw error;
      if (current === asked) current = null;
      db.close();
      return used(work, triesLeft - 1);
    }
  }

  await database();
  return {
    use: (work) => worded(() => used(work, MOST_TRIES)),
    close() {
      isOver = true;
      current?.then((db) => db.close()).catch(() => undefined);
    },
  };
}

/** Waits for a transaction; why it failed is what the whole says, not the first write that was undone. */
export async function allOrNone(done: Promise<void>, writes: readonly Promise<unknown>[]): Promise<void> {
  await Promise.allSettled(writes);
  await done;
}

/** @param lost told when the browser, or another page, has ended this connection */
async function openedOnce(lost: () => void): Promise<{ readonly db: StoreDb; readonly isNew: boolean }> {
  if (typeof indexedDB === 'undefined') throw keepsNothing();
  let giveUp: (error: Error) => void = () => undefined;
  let isGivenUp = false;
  let isNew = false;
  const blocked = new Promise<never>((_, reject) => (giveUp = reject));
  const fresh = { id: crypto.randomUUID(), now: new Date().toISOString() };
  const opening = openDB<StoreSchema>(NAME, STORE_VERSION, {
    upgrade(db, oldVersion, _newVersion, change) {
      isNew = oldVersion === 0;
      upgradeStore(unwrap(db), unwrap(change), oldVersion, fresh);
    },
    blocked() {
      isGivenUp = true;
      giveUp(isHeld());
    },
    blocking(_current, _wanted, event) {
      // A newer page waits, or whoever deletes the library: let them have the database rather than hold them up.
      (event.target as IDBDatabase).close();
      lost();
    },
    terminated: lost,
  });
  // One that opens after all is nobody's: it must not hold up the page that is loaded next.
  opening.then((late) => isGivenUp && late.close()).catch(() => undefined);
  const db = await Promise.race([opening, blocked]);
  return { db, isNew };
}
