import { markPlaying, playingNow, whenLetGo } from './playing-lock';
import { FEWEST_PACKED, MOST_STALE, newestFirst, packed, unpacked } from './packed-records';
import { unreadable, soundFilesOf, soundRecord, sorted } from './unreadable';
import { allOrNone, connectStore, type StoreChange, type StoreDb } from './store-connection';
import { collections, type BrowserStore, type Collections, type TakeOpening } from './store-types';
import { takeFrom } from './take';
import { asListed, summaryOf, type TakeSummary } from './take-record';
import { saysItIs } from './teacher';
import type { Take } from './types';

export type { BrowserStore } from './store-types';

/** The clause of a take that was being played when its page died. */
const CUT_OFF = 'The page closed during this take: it ends where the page did.';
const FEWEST_HITS = 2;

/**
 * Opens the one database of this app in this browser.
 *
 * ```ts
 * const store = await openStore();        // rejects with an InputError the page can show
 * const cutOff = await store.recover();
 * ```
 *
 * @param deleted told when the library was deleted under the page, and a new, empty one stands in its place
 * @throws InputError where the browser keeps nothing (some private windows) or an older page holds the database;
 *   every method throws one, too, when there is no space left or the browser has closed the database and does not open it
 *   again. Nothing that was kept before is lost by it.
 */
// eslint-disable-next-line max-lines-per-function -- one method a kind of thing kept, all over one connection
export async function openStore(deleted?: () => void): Promise<BrowserStore> {
  const { use, close } = await connectStore(deleted);
  const alive = new Map<string, () => void>();
  /** Ids of takes whose records were found unsound, or they themselves. */
  const unsound = new Set<string>();

  const write = (take: Take) =>
    use(async (db) => {
      const change = db.transaction(['takes', 'summaries', 'stale', 'running', 'chunks'], 'readwrite');
      const before = await change.objectStore('summaries').get(take.id);
      const playerId = saysItIs(take) ?? before?.playerId ?? '';
      await allOrNone(change.done, [
        change.objectStore('takes').put(take),
        change.objectStore('summaries').put({ ...summaryOf(take), playerId }),
        change.objectStore('stale').put(true, take.id),
        change.objectStore('running').delete(take.id),
        change.objectStore('chunks').delete(chunksOf(take.id)),
      ]);
      letGo(take.id);
    });

  const discard = (takeId: string) =>
    use(async (db) => {
      const change = db.transaction(['running', 'chunks'], 'readwrite');
      await allOrNone(change.done, [
        change.objectStore('running').delete(takeId),
        change.objectStore('chunks').delete(chunksOf(takeId)),
      ]);
      letGo(takeId);
    });

  const remove = (takeId: string) =>
    use(async (db) => {
      const change = db.transaction(['takes', 'summaries', 'stale'], 'readwrite');
      await allOrNone(change.done, [
        change.objectStore('takes').delete(takeId),
        change.objectStore('summaries').delete(takeId),
        change.objectStore('stale').put(true, takeId),
      ]);
    });

  /** Those that read; the others are remembered, to be made again from their takes. */
  function soundOf(records: readonly TakeSummary[]): readonly TakeSummary[] {
    return records.flatMap((one) => {
      const sound = soundRecord(one);
      if (sound === undefined) unsound.add(one.id);
      return sound ?? [];
    });
  }

  function letGo(takeId: string): void {
    alive.get(takeId)?.();
    alive.delete(takeId);
  }

  async function leftOf(opening: TakeOpening): Promise<Take | undefined> {
    const chunks = await use((db) => db.getAll('chunks', chunksOf(opening.id)));
    const hits = chunks.flat().sort((a, b) => a.atMs - b.atMs);
    if (hits.length < FEWEST_HITS) return undefined;
    const notes = opening.notes === '' ? CUT_OFF : `${opening.notes}\n${CUT_OFF}`;
    return { ...opening, hits, notes };
  }

  /** Keeps what is left of one take. Empty where its page finished it, or too little is left. */
  async function recoverOne(takeId: string): Promise<readonly Take[]> {
    const opening = await use((db) => db.get('running', takeId));
    if (opening === undefined) return [];
    const take = await leftOf(opening);
    if (take === undefined) await discard(takeId);
    else await write(take);
    return take === undefined ? [] : [take];
  }

  async function lateRecovered(takeId: string, later?: (take: Take) => void): Promise<void> {
    for (const take of await recoverOne(takeId)) later?.(take);
  }

  return {
    lasts: true,
    begin: (opening) =>
      use(async (db) => {
        // A take is begun once more when its opening changes: its mark stays.
        if (!alive.has(opening.id)) alive.set(opening.id, markPlaying(locks(), opening.id));
        await db.put('running', opening, opening.id);
      }),
    append: (takeId, chunk, hits) =>
      use(async (db) => {
        const change = db.transaction(['running', 'chunks'], 'readwrite');
        const isBegun = (await change.objectStore('running').getKey(takeId)) !== undefined;
        const writes = isBegun ? [change.objectStore('chunks').put(hits, [takeId, chunk])] : [];
        await allOrNone(change.done, writes);
        return isBegun;
      }),
    finish: write,
    discard,
    async recover(later) {
      const played = await playingNow(locks());
      const recovered: Take[] = [];
      for (const { id } of await use((db) => db.getAll('running'))) {
        if (alive.has(id)) continue;
        if (played.has(id)) whenLetGo(locks(), id, () => lateRecovered(id, later));
        else recovered.push(...(await recoverOne(id)));
      }
      return recovered;
    },
    list: ({ playerId, most } = {}) =>
      use(async (db) => (await listed(db, soundOf, playerId, most)).map(asListed)),
    records: (playerId) => use(async (db) => soundOf(await recordsOf(db, playerId))),
    count: (playerId) =>
      use((db) =>
        playerId === undefined
          ? db.count('summaries')
          : db.countFromIndex('summaries', 'player', takesOf(playerId)),
      ),
    record: (takeId) =>
      use(async (db) => soundOf([await db.get('summaries', takeId)].flatMap((one) => one ?? [])).at(0)),
    get: (takeId) =>
      use(async (db) => {
        const take = await db.get('takes', takeId);
        if (take === undefined) return undefined;
        unsound.add(takeId);
        const sound = takeFrom(take);
        unsound.delete(takeId);
        return sound;
      }),
    put: write,
    describe: (takeId, sentence, graded = null) =>
      use(async (db) => {
        const change = db.transaction(['summaries', 'stale'], 'readwrite');
        const summaries = change.objectStore('summaries');
        const summary = await summaries.get(takeId);
        const described = summary === undefined ? [] : [{ ...summary, sentence, graded }];
        await allOrNone(change.done, changed(change, described));
      }),
    delete: remove,
    give: (takeIds, playerId) =>
      use(async (db) => {
        const change = db.transaction(['summaries', 'stale'], 'readwrite');
        const found = await Promise.all(takeIds.map((id) => change.objectStore('summaries').get(id)));
        const theirs = found.filter((one) => one !== undefined);
        await allOrNone(
          change.done,
          changed(
            change,
            theirs.map((summary) => ({ ...summary, playerId })),
          ),
        );
      }),
    all: (collection) => use(async (db) => (await sorted(db, collection)).sound),
    filesOf: (collection, playerId) => use((db) => soundFilesOf(db, collection, playerId)),
    place: (collection, thing) =>
      use(async (db) => {
        await db.put(collection, thing as never);
      }),
    alter: (collection, key, step) =>
      use(async (db) => {
        const change = db.transaction(collection, 'readwrite');
        const thing = await change.store.get(key);
        await allOrNone(
          change.done,
          thing === undefined
            ? []
            : [change.store.put(step(thing as Collections[typeof collection]) as never)],
        );
      }),
    remove: (collection, key) => use((db) => db.delete(collection, key)),
    putAll: (batch) =>
      use(async (db) => {
        const change = db.transaction(LIBRARY, 'readwrite');
        const writes: Promise<unknown>[] = [];
        for (const collection of collections) {
          for (const thing of batch[collection] ?? [])
            writes.push(change.objectStore(collection).put(thing as never));
        }
        for (const { take, summary } of batch.takes ?? []) {
          writes.push(change.objectStore('takes').put(take), ...changed(change, [summary]));
        }
        await allOrNone(change.done, writes);
      }),
    forgetPlayer: (playerId) =>
      use(async (db) => {
        const change = db.transaction([...PERSONAL], 'readwrite');
        const takeIds = await change.objectStore('summaries').index('player').getAllKeys(takesOf(playerId));
        const writes: Promise<unknown>[] = [change.objectStore('players').delete(playerId)];
        for (const takeId of takeIds) {
          writes.push(change.objectStore('takes').delete(takeId));
          writes.push(change.objectStore('summaries').delete(takeId));
          writes.push(change.objectStore('stale').put(true, takeId));
        }
        for (const collection of ['sheets', 'notes'] as const) {
          const keys = await change.objectStore(collection).index('player').getAllKeys(playerId);
          writes.push(...keys.map((key) => change.objectStore(collection).delete(key)));
        }
        await allOrNone(change.done, writes);
      }),
    mergePlayers: (fromId, intoId) =>
      use(async (db) => {
        if (fromId === intoId) return;
        const change = db.transaction([...PERSONAL], 'readwrite');
        const writes = await movedWrites(change, fromId, intoId);
        writes.push(change.objectStore('players').delete(fromId));
        await allOrNone(change.done, writes);
      }),
    unreadable: () => use((db) => unreadable(db, unsound)),
    async removeUnreadable({ from, key }) {
      if (from !== 'takes') return use((db) => db.delete(from, key as string));
      unsound.delete(key as string);
      return remove(key as string);
    },
    kept: (name) => use((db) => db.get('small', name)),
    keep: (name, value) =>
      use(async (db) => {
        await db.put('small', value, name);
      }),
    close() {
      for (const takeId of [...alive.keys()]) letGo(takeId);
      close();
    },
  };
}

/** What a library file holds. */
const LIBRARY = [...collections, 'takes', 'summaries', 'stale'] as const;

/** What names a person. */
const PERSONAL = ['players', 'takes', 'summaries', 'stale', 'sheets', 'notes'] as const;
type PersonalChange = StoreChange<(typeof PERSONAL)[number][]>;

async function movedWrites(
  change: PersonalChange,
  fromId: string,
  playerId: string,
): Promise<Promise<unknown>[]> {
  const summaries = change.objectStore('summaries');
  const theirs = await summaries.index('player').getAll(takesOf(fromId));
  const writes = changed(
    change,
    theirs.map((summary) => ({ ...summary, playerId })),
  );
  for (const name of ['sheets', 'notes'] as const) {
    const collection = change.objectStore(name);
    const files = await collection.index('player').getAll(fromId);
    writes.push(...files.map((file) => collection.put({ ...file, playerId })));
  }
  return writes;
}

/** Newest first. An index gives them in order, so that the newest few come without the rest. */
async function listed(
  db: StoreDb,
  soundOf: Sound,
  playerId: string | undefined,
  most = Infinity,
): Promise<readonly TakeSummary[]> {
  if (most === Infinity) {
    const quick = await quickly(db, soundOf);
    if (quick === undefined) return soundOf(await recordsOf(db, playerId));
    return newestFirst(quick.filter((one) => playerId === undefined || one.playerId === playerId));
  }
  const { index, range } = inOrder(playerId);
  const newest: TakeSummary[] = [];
  const { store } = db.transaction('summaries');
  let cursor = await store.index(index).openCursor(range, 'prev');
  while (cursor !== null && newest.length < most) {
    newest.push(cursor.value);
    cursor = await cursor.continue();
  }
  return soundOf(newest);
}

/** All of them, each whole, newest first. */
async function recordsOf(db: StoreDb, playerId: string | undefined): Promise<readonly TakeSummary[]> {
  const { index, range } = inOrder(playerId);
  return (await db.getAllFromIndex('summaries', index, range)).reverse();
}

/** Index and range of a player's takes, or of everybody's; read backwards they are newest first. */
const inOrder = (
  playerId: string | undefined,
): { readonly index: 'when' | 'player'; readonly range: IDBKeyRange | null } =>
  playerId === undefined ? { index: 'when', range: null } : { index: 'player', range: takesOf(playerId) };

/** As much of a transaction as records are written in. */
interface RecordsChange {
  objectStore(name: 'summaries'): { put(value: TakeSummary): Promise<unknown> };
  objectStore(name: 'stale'): { put(value: true, key: string): Promise<unknown> };
}

/** Writes of summaries, each noted as changed since it was packed. */
function changed(change: RecordsChange, summaries: readonly TakeSummary[]): Promise<unknown>[] {
  return summaries.flatMap((summary) => [
    change.objectStore('summaries').put(summary),
    change.objectStore('stale').put(true, summary.id),
  ]);
}

type Sound = (records: readonly TakeSummary[]) => readonly TakeSummary[];

/**
 * All summaries by the packed way; undefined where nothing is packed, or what is can't be read: then it is thrown away.
 * Packs them (anew) behind it where it is time.
 */
async function quickly(db: StoreDb, soundOf: Sound): Promise<readonly TakeSummary[] | undefined> {
  const read = db.transaction(['packed', 'stale', 'summaries']);
  const [blocks, staleIds, count] = await Promise.all([
    read.objectStore('packed').getAll(),
    read.objectStore('stale').getAllKeys(),
    read.objectStore('summaries').count(),
  ]);
  const records = blocks.length === 0 ? undefined : await unpackedFrom(read, soundOf, blocks, staleIds);
  const isTime = records === undefined ? count >= FEWEST_PACKED : staleIds.length > MOST_STALE;
  // Only a way to be quicker: where it cannot be written, the records themselves are read.
  if (isTime || (blocks.length > 0 && records === undefined)) void pack(db, soundOf).catch(() => undefined);
  return records;
}

async function pack(db: StoreDb, soundOf: Sound): Promise<void> {
  const change = db.transaction(['packed', 'stale', 'summaries'], 'readwrite');
  const stale = change.objectStore('stale');
  const blocks = await change.objectStore('packed').getAll();
  const records =
    (blocks.length === 0
      ? undefined
      : await unpackedFrom(change, soundOf, blocks, await stale.getAllKeys())) ??
    soundOf(await change.objectStore('summaries').getAll());
  const blocksNow = records.length < FEWEST_PACKED ? [] : packed(records);
  await allOrNone(change.done, [
    change.objectStore('packed').clear(),
    stale.clear(),
    ...blocksNow.map((block, index) => change.objectStore('packed').put(block, index)),
  ]);
}

/** Undefined where the blocks can't be read. */
async function unpackedFrom(
  read: { objectStore(name: 'summaries'): { get(id: string): Promise<TakeSummary | undefined> } },
  soundOf: Sound,
  blocks: readonly string[],
  staleIds: readonly string[],
): Promise<readonly TakeSummary[] | undefined> {
  const summaries = read.objectStore('summaries');
  const found = await Promise.all(staleIds.map((id) => summaries.get(id)));
  const fresh = soundOf(found.filter((one) => one !== undefined));
  try {
    return unpacked(blocks, staleIds, fresh);
  } catch {
    return undefined;
  }
}

const chunksOf = (takeId: string): IDBKeyRange => IDBKeyRange.bound([takeId, 0], [takeId, Infinity]);
const takesOf = (playerId: string): IDBKeyRange => IDBKeyRange.bound([playerId, ''], [playerId, '\uffff']);

const locks = (): LockManager | undefined =>
  typeof navigator === 'undefined' ? undefined : (navigator as Partial<Navigator>).locks;
