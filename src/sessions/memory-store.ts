import type { Batch, BrowserStore, KeptFile, CollectionName, Collections } from './store-types';
import { asListed, summaryOf, type TakeSummary } from './take-record';
import { newPlayer } from './player';
import { saysItIs } from './teacher';
import type { Take } from './types';

/**
 * A library that lasts as long as the page is open: for a browser window that keeps nothing, so that a player there can
 * still play, review and download. It answers as the browser's own store does.
 */
// eslint-disable-next-line max-lines-per-function -- one method a kind of thing kept, as in the browser's store
export function memoryStore(): BrowserStore {
  const takes = new Map<string, Take>();
  const summaries = new Map<string, TakeSummary>();
  const small = new Map<string, unknown>([['player', FIRST]]);
  const collections: { readonly [Name in CollectionName]: Map<string, Collections[Name]> } = {
    players: new Map([[FIRST, newPlayer(FIRST, '', '1970-01-01T00:00:00.000Z')]]),
    phrases: new Map(),
    rigs: new Map(),
    sheets: new Map(),
    notes: new Map(),
  };

  function put(take: Take): Promise<void> {
    const playerId = saysItIs(take) ?? summaries.get(take.id)?.playerId ?? '';
    takes.set(take.id, take);
    summaries.set(take.id, { ...summaryOf(take), playerId });
    return done();
  }

  function place<Name extends CollectionName>(collection: Name, thing: Collections[Name]): void {
    collections[collection].set('id' in thing ? thing.id : thing.name, thing);
  }

  function drop(takeId: string): void {
    takes.delete(takeId);
    summaries.delete(takeId);
  }

  function give(takeIds: readonly string[], playerId: string): void {
    for (const id of takeIds) {
      const summary = summaries.get(id);
      if (summary !== undefined) summaries.set(id, { ...summary, playerId });
    }
  }

  const takesOf = (playerId?: string): TakeSummary[] =>
    [...summaries.values()]
      .filter((one) => playerId === undefined || one.playerId === playerId)
      .sort((a, b) => (a.recordedAt < b.recordedAt ? 1 : a.recordedAt > b.recordedAt ? -1 : 0));
  const filesOf = (collection: 'sheets' | 'notes', playerId: string): KeptFile[] =>
    [...collections[collection].values()].filter((file) => file.playerId === playerId);

  return {
    lasts: false,
    begin: () => done(),
    append: () => Promise.resolve(true),
    finish: put,
    discard: () => done(),
    recover: () => Promise.resolve([]),
    list: ({ playerId, most } = {}) => Promise.resolve(takesOf(playerId).slice(0, most).map(asListed)),
    records: (playerId) => Promise.resolve(takesOf(playerId)),
    count: (playerId) => Promise.resolve(takesOf(playerId).length),
    record: (takeId) => Promise.resolve(summaries.get(takeId)),
    get: (takeId) => Promise.resolve(takes.get(takeId)),
    put,
    describe(takeId, sentence, graded = null) {
      const summary = summaries.get(takeId);
      if (summary !== undefined) summaries.set(takeId, { ...summary, sentence, graded });
      return done();
    },
    delete(takeId) {
      drop(takeId);
      return done();
    },
    give(takeIds, playerId) {
      give(takeIds, playerId);
      return done();
    },
    all: (collection) => Promise.resolve([...collections[collection].values()]),
    filesOf: (collection, playerId) => Promise.resolve(filesOf(collection, playerId)),
    place(collection, thing) {
      place(collection, thing);
      return done();
    },
    alter(collection, key, step) {
      const thing = collections[collection].get(key);
      if (thing !== undefined) place(collection, step(thing));
      return done();
    },
    remove(collection, key) {
      collections[collection].delete(key);
      return done();
    },
    putAll(batch: Batch) {
      for (const collection of Object.keys(collections) as CollectionName[]) {
        for (const thing of batch[collection] ?? []) place(collection, thing);
      }
      for (const { take, summary } of batch.takes ?? []) {
        takes.set(take.id, take);
        summaries.set(take.id, summary);
      }
      return done();
    },
    forgetPlayer(playerId) {
      for (const { id } of takesOf(playerId)) drop(id);
      for (const collection of ['sheets', 'notes'] as const) {
        for (const { id } of filesOf(collection, playerId)) collections[collection].delete(id);
      }
      collections.players.delete(playerId);
      return done();
    },
    mergePlayers(fromId, playerId) {
      if (fromId === playerId) return done();
      give(
        takesOf(fromId).map(({ id }) => id),
        playerId,
      );
      for (const collection of ['sheets', 'notes'] as const) {
        for (const file of filesOf(collection, fromId)) place(collection, { ...file, playerId });
      }
      collections.players.delete(fromId);
      return done();
    },
    unreadable: () => Promise.resolve([]),
    removeUnreadable: () => done(),
    kept: (name) => Promise.resolve(small.get(name)),
    keep(name, value) {
      small.set(name, value);
      return done();
    },
    close: () => undefined,
  };
}

const FIRST = 'this-page';
/** After something was done at once. */
const done = (): Promise<void> => Promise.resolve();
