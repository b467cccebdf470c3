import type { BrowserStore } from './store-types';

/**
 * A store that tells of each change to what lists, sheets and History show, once it is kept: the one place where that is
 * told, so that no work has to think of it. A take that is running is nobody else's affair until it ends.
 */
export function tellingStore(store: BrowserStore, tell: () => void): BrowserStore {
  async function told<Value>(work: Promise<Value>): Promise<Value> {
    const value = await work;
    tell();
    return value;
  }
  return {
    ...store,
    finish: (take) => told(store.finish(take)),
    recover: async (later) => {
      const recovered = await store.recover(later);
      if (recovered.length > 0) tell();
      return recovered;
    },
    put: (take) => told(store.put(take)),
    describe: (...about) => told(store.describe(...about)),
    delete: (takeId) => told(store.delete(takeId)),
    give: (...how) => told(store.give(...how)),
    place: (collection, thing) => told(store.place(collection, thing)),
    alter: (collection, key, step) => told(store.alter(collection, key, step)),
    remove: (collection, key) => told(store.remove(collection, key)),
    putAll: (batch) => told(store.putAll(batch)),
    forgetPlayer: (playerId) => told(store.forgetPlayer(playerId)),
    mergePlayers: (fromId, intoId) => told(store.mergePlayers(fromId, intoId)),
    removeUnreadable: (unreadable) => told(store.removeUnreadable(unreadable)),
  };
}
