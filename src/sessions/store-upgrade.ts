import { newPlayer } from './player';
import type { KeptRig } from './store-types';
import { rigIdOf, summaryOf } from './take-record';
import type { Rig, Take } from './types';

/** The version that this page writes. 1: takes, running, small. 2: players and all that is theirs. 3: records packed. */
export const STORE_VERSION = 3;

/**
 * Brings a database of any older version to {@link STORE_VERSION}, within the one transaction of its upgrade: it
 * comes there whole or stays as it was.
 * @param fresh an id and a time for the first player: whose takes they are until somebody says otherwise
 */
export function upgradeStore(
  db: IDBDatabase,
  change: IDBTransaction,
  oldVersion: number,
  fresh: { readonly id: string; readonly now: string },
): void {
  if (oldVersion < 1) {
    db.createObjectStore('takes', { keyPath: 'id' });
    db.createObjectStore('summaries', { keyPath: 'id' });
    db.createObjectStore('running');
    db.createObjectStore('chunks');
    db.createObjectStore('small');
  }
  if (oldVersion < 2) toPlayers(db, change, fresh);
  if (oldVersion < 3) {
    db.createObjectStore('packed');
    db.createObjectStore('stale');
  }
}

function toPlayers(
  db: IDBDatabase,
  change: IDBTransaction,
  { id, now }: { readonly id: string; readonly now: string },
): void {
  const players = db.createObjectStore('players', { keyPath: 'id' });
  const phrases = db.createObjectStore('phrases', { keyPath: 'name' });
  const rigs = db.createObjectStore('rigs', { keyPath: 'id' });
  for (const collection of ['sheets', 'notes']) {
    db.createObjectStore(collection, { keyPath: 'id' }).createIndex('player', 'playerId');
  }
  const summaries = change.objectStore('summaries');
  summaries.createIndex('when', 'recordedAt');
  summaries.createIndex('player', ['playerId', 'recordedAt']);
  const small = change.objectStore('small');

  players.put(newPlayer(id, '', now));
  small.put(id, 'player');
  each(change.objectStore('takes'), (value) => {
    const take = value as Take;
    const old = summaries.get(take.id);
    old.onsuccess = () => {
      const { sentence = '' } = (old.result ?? {}) as { sentence?: string };
      summaries.put({ ...summaryOf(take), playerId: id, sentence });
    };
  });
  const kept = small.get('phrases');
  kept.onsuccess = () => {
    const files: readonly unknown[] = Array.isArray(kept.result) ? kept.result : [];
    for (const file of files) if (isNamed(file)) phrases.put(file);
    small.delete('phrases');
  };
  const rig = small.get('rig');
  rig.onsuccess = () => {
    if (rig.result === undefined || rig.result === null) return;
    const its = rig.result as Rig;
    rigs.put({ id: rigIdOf(its), rig: its, changedAt: now } satisfies KeptRig);
  };
}

const isNamed = (file: unknown): boolean =>
  typeof file === 'object' && file !== null && typeof (file as { name?: unknown }).name === 'string';

function each(store: IDBObjectStore, work: (value: unknown) => void): void {
  const walk = store.openCursor();
  walk.onsuccess = () => {
    const cursor = walk.result;
    if (cursor === null) return;
    work(cursor.value);
    cursor.continue();
  };
}
