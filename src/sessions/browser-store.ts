import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { RawHit } from '../stroke';
import { markPlaying, playingNow } from './playing-lock';
import { isHeld, keepsNothing, worded } from './storage-words';
import { takeFrom } from './take';
import type { Take } from './types';

const NAME = 'evenhand';
const VERSION = 1;
/** The clause of a take that was being played when its page died. */
const CUT_OFF = 'The page closed during this take: it ends where the page did.';
const FEWEST_HITS = 2;

type TakeOpening = Omit<Take, 'hits'>;

/** What a list of takes shows without reading them. */
export interface TakeSummary {
  readonly id: string;
  readonly title: string;
  readonly player: string;
  readonly recordedAt: string;
  readonly source: Take['source'];
  /** The tempo, or the first of a ramp. */
  readonly bpm: number;
  readonly hits: number;
  /** The sentence of its report, '' until {@link BrowserStore.describe} says it. */
  readonly sentence: string;
}

/** The takes and small settings of this browser. Its first four methods are what a recorder needs. */
export interface BrowserStore {
  begin(opening: TakeOpening): Promise<void>;
  append(takeId: string, chunk: number, hits: readonly RawHit[]): Promise<void>;
  /** The take is kept and its running chunks are forgotten, both or neither. */
  finish(take: Take): Promise<void>;
  discard(takeId: string): Promise<void>;
  /**
   * Keeps what is left of takes whose page died while they were played, and returns them. Call it once when the
   * page opens. A take that another page is still playing is left alone; one with under two hits is dropped.
   */
  recover(): Promise<readonly Take[]>;
  /** Newest first. */
  list(): Promise<readonly TakeSummary[]>;
  get(takeId: string): Promise<Take | undefined>;
  put(take: Take): Promise<void>;
  /** Keeps the sentence of a take's report beside it, for the list. A take that is not there is left so. */
  describe(takeId: string, sentence: string): Promise<void>;
  delete(takeId: string): Promise<void>;
  /** A small thing kept by name: the rig, the last phrase. Undefined where nothing was kept. */
  kept(name: string): Promise<unknown>;
  keep(name: string, value: unknown): Promise<void>;
  close(): void;
}

interface Schema extends DBSchema {
  takes: { key: string; value: Take };
  summaries: { key: string; value: TakeSummary };
  running: { key: string; value: TakeOpening };
  chunks: { key: [takeId: string, chunk: number]; value: readonly RawHit[] };
  small: { key: string; value: unknown };
}

/**
 * Opens the one database of this app in this browser.
 *
 * ```ts
 * const store = await openStore();        // rejects with an InputError the page can show
 * const cutOff = await store.recover();
 * ```
 *
 * @throws InputError where the browser keeps nothing (some private windows) or an older page holds the database;
 *   every method throws one, too, when there is no room left. Nothing that was kept before is lost by it.
 */
export async function openStore(): Promise<BrowserStore> {
  const db = await open();
  const alive = new Map<string, () => void>();

  const write = (take: Take) =>
    worded(async () => {
      const change = db.transaction(['takes', 'summaries', 'running', 'chunks'], 'readwrite');
      await allOrNone(change.done, [
        change.objectStore('takes').put(take),
        change.objectStore('summaries').put(summaryOf(take)),
        change.objectStore('running').delete(take.id),
        change.objectStore('chunks').delete(chunksOf(take.id)),
      ]);
      letGo(take.id);
    });

  const discard = (takeId: string) =>
    worded(async () => {
      const change = db.transaction(['running', 'chunks'], 'readwrite');
      await allOrNone(change.done, [
        change.objectStore('running').delete(takeId),
        change.objectStore('chunks').delete(chunksOf(takeId)),
      ]);
      letGo(takeId);
    });

  function letGo(takeId: string): void {
    alive.get(takeId)?.();
    alive.delete(takeId);
  }

  async function leftOf(opening: TakeOpening): Promise<Take | undefined> {
    const chunks = await db.getAll('chunks', chunksOf(opening.id));
    const hits = chunks.flat().sort((a, b) => a.atMs - b.atMs);
    if (hits.length < FEWEST_HITS) return undefined;
    const notes = opening.notes === '' ? CUT_OFF : `${opening.notes}\n${CUT_OFF}`;
    return { ...opening, hits, notes };
  }

  return {
    begin: (opening) =>
      worded(async () => {
        letGo(opening.id);
        alive.set(opening.id, markPlaying(locks(), opening.id));
        await db.put('running', opening, opening.id);
      }),
    append: (takeId, chunk, hits) =>
      worded(async () => {
        await db.put('chunks', hits, [takeId, chunk]);
      }),
    finish: write,
    discard,
    recover: () =>
      worded(async () => {
        const played = await playingNow(locks());
        const recovered: Take[] = [];
        for (const opening of await db.getAll('running')) {
          if (alive.has(opening.id) || played.has(opening.id)) continue;
          const take = await leftOf(opening);
          if (take === undefined) await discard(opening.id);
          else {
            await write(take);
            recovered.push(take);
          }
        }
        return recovered;
      }),
    list: () =>
      worded(async () => {
        const all = await db.getAll('summaries');
        return all.sort((a, b) => (a.recordedAt < b.recordedAt ? 1 : a.recordedAt > b.recordedAt ? -1 : 0));
      }),
    get: (takeId) =>
      worded(async () => {
        const take = await db.get('takes', takeId);
        return take === undefined ? undefined : takeFrom(take);
      }),
    put: write,
    describe: (takeId, sentence) =>
      worded(async () => {
        const change = db.transaction('summaries', 'readwrite');
        const summary = await change.store.get(takeId);
        if (summary !== undefined) await change.store.put({ ...summary, sentence });
        await change.done;
      }),
    delete: (takeId) =>
      worded(async () => {
        const change = db.transaction(['takes', 'summaries'], 'readwrite');
        await allOrNone(change.done, [
          change.objectStore('takes').delete(takeId),
          change.objectStore('summaries').delete(takeId),
        ]);
      }),
    kept: (name) => worded(() => db.get('small', name)),
    keep: (name, value) =>
      worded(async () => {
        await db.put('small', value, name);
      }),
    close() {
      for (const takeId of [...alive.keys()]) letGo(takeId);
      db.close();
    },
  };
}

async function open(): Promise<IDBPDatabase<Schema>> {
  if (typeof indexedDB === 'undefined') throw keepsNothing();
  let giveUp: (error: Error) => void = () => undefined;
  const blocked = new Promise<never>((_, reject) => (giveUp = reject));
  const opening = openDB<Schema>(NAME, VERSION, {
    upgrade(db) {
      db.createObjectStore('takes', { keyPath: 'id' });
      db.createObjectStore('summaries', { keyPath: 'id' });
      db.createObjectStore('running');
      db.createObjectStore('chunks');
      db.createObjectStore('small');
    },
    blocked() {
      giveUp(isHeld());
    },
    blocking(_current, _wanted, event) {
      // A newer page waits: let it have the database rather than hold it up.
      (event.target as IDBDatabase).close();
    },
  });
  return worded(() => Promise.race([opening, blocked]));
}

/** Waits for a transaction; why it failed is what the whole says, not the first write that was undone. */
async function allOrNone(done: Promise<void>, writes: readonly Promise<unknown>[]): Promise<void> {
  await Promise.allSettled(writes);
  await done;
}

const chunksOf = (takeId: string): IDBKeyRange => IDBKeyRange.bound([takeId, 0], [takeId, Infinity]);

/** What a list shows of a take that nobody has graded yet. */
export function summaryOf(take: Take): TakeSummary {
  const { id, player, recordedAt, source, phrase, tempo, hits } = take;
  const bpm = 'bpm' in tempo ? tempo.bpm : tempo.ramp[0].bpm;
  return { id, title: phrase.title, player, recordedAt, source, bpm, hits: hits.length, sentence: '' };
}

const locks = (): LockManager | undefined =>
  typeof navigator === 'undefined' ? undefined : (navigator as Partial<Navigator>).locks;
