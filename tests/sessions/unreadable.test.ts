import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { openStore, type BrowserStore } from '../../src/sessions/browser-store';
import { newPlayer } from '../../src/sessions/player';
import { FEWEST_PACKED } from '../../src/sessions/packed-records';
import { summaryOf } from '../../src/sessions/take-record';

// What a disk, another program or an older page may leave in a database: one bad thing must hide nothing else.

const AT = '2026-11-25T12:00:00.000Z';
const { take } = modelTake({ phrase: phraseNamed('Flam accent'), bpm: 84, seed: 1, cycles: 1 });
const other = { ...take, id: 'other', recordedAt: '2026-03-01T10:00:00.000Z' };
let stores: BrowserStore[] = [];
async function page(): Promise<BrowserStore> {
  const store = await openStore();
  stores.push(store);
  return store;
}

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory());
  stores = [];
});
afterEach(() => {
  for (const store of stores) store.close();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

/** Writes past all checks, as damage does. */
function damage(store: string, write: (on: IDBObjectStore) => void): Promise<void> {
  return new Promise((done) => {
    const opening = indexedDB.open('evenhand');
    opening.onsuccess = () => {
      const change = opening.result.transaction(store, 'readwrite');
      write(change.objectStore(store));
      change.oncomplete = () => {
        opening.result.close();
        done();
      };
    };
  });
}

describe('one bad record', () => {
  it('of a collection is set aside and named, and all others are there', async () => {
    const store = await page();
    await store.place('players', newPlayer('p1', 'Kim', AT));
    const damaged = { id: 'p2', name: 7 };
    await damage('players', (on) => on.put(damaged));
    await damage('phrases', (on) => on.put({ name: 'Mine', phrase: null }));
    await damage('sheets', (on) =>
      on.put({ id: 's1', playerId: 'p1', changedAt: AT, file: { format: 'x' } }),
    );
    await damage('rigs', (on) => on.put({ id: 'r1', rig: 3, changedAt: AT }));
    expect((await store.all('players')).map(({ id }) => id)).toContain('p1');
    expect((await store.all('players')).map(({ id }) => id)).not.toContain('p2');
    expect([await store.all('phrases'), await store.all('rigs'), await store.all('sheets')]).toEqual([
      [],
      [],
      [],
    ]);
    const unreadable = await store.unreadable();
    expect(unreadable.map(({ from, key }) => [from, key])).toEqual([
      ['players', 'p2'],
      ['phrases', 'Mine'],
      ['rigs', 'r1'],
      ['sheets', 's1'],
    ]);
    expect(unreadable[0]).toMatchObject({ reason: 'name must be text, got 7', value: damaged });

    for (const one of unreadable) await store.removeUnreadable(one);
    expect(await store.unreadable()).toEqual([]);
  });

  it('of a take is made again from the take, and until then hides no other', async () => {
    const store = await page();
    await store.put(take);
    await store.put(other);
    await damage('summaries', (on) => on.put({ ...summaryOf(take), hits: 'many', playerId: '' }));
    expect((await store.list()).map(({ id }) => id)).toEqual(['other']);
    expect(await store.unreadable()).toEqual([]);
    expect((await store.list()).map(({ id }) => id).sort()).toEqual([take.id, 'other'].sort());
  });

  it('that is gone, or has no date, is made again too', async () => {
    const store = await page();
    await store.put(take);
    await store.put(other);
    await damage('summaries', (on) => on.delete('other'));
    await damage('summaries', (on) => on.put({ id: take.id }));
    expect(await store.list()).toEqual([]);
    expect(await store.unreadable()).toEqual([]);
    expect((await store.list()).map(({ id }) => id).sort()).toEqual([take.id, 'other'].sort());
  });

  it('with unsound figures alone is as of a take that was never graded', async () => {
    const store = await page();
    await store.put(take);
    await damage('summaries', (on) =>
      on.put({ ...summaryOf(take), sentence: 'All holds.', graded: { version: 2, measures: 3 } as never }),
    );
    expect(await store.list()).toMatchObject([{ id: take.id, sentence: '', graded: null }]);
  });

  it('of a take that is unsound itself is named with its place, once it was asked for', async () => {
    const store = await page();
    await store.put(take);
    await store.put(other);
    await damage('takes', (on) => on.put({ ...other, hits: [{ atMs: 'late' }] }));
    await expect(store.get('other')).rejects.toThrow(/^hits\[0\]/);
    expect(await store.get(take.id)).toEqual(take);
    const unreadable = await store.unreadable();
    expect(unreadable.map(({ from, key }) => [from, key])).toEqual([['takes', 'other']]);
    await store.removeUnreadable(unreadable[0]);
    expect(await store.unreadable()).toEqual([]);
    expect((await store.list()).map(({ id }) => id)).toEqual([take.id]);
  });

  it('whose bytes are gone is told from the others one by one', async () => {
    const store = await page();
    await store.place('players', newPlayer('p1', 'Kim', AT));
    await store.place('players', newPlayer('p2', 'Lee', AT));
    const unreadable = new DOMException('gone', 'NotReadableError');
    const { getAll, get } = IDBObjectStore.prototype;
    vi.spyOn(IDBObjectStore.prototype, 'getAll').mockImplementation(function (this: IDBObjectStore, ...args) {
      if (this.name === 'players') throw unreadable;
      return getAll.apply(this, args);
    });
    vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(function (this: IDBObjectStore, key) {
      if (this.name === 'players' && key === 'p2') throw unreadable;
      return get.call(this, key);
    });
    const names = (await store.all('players')).map(({ name }) => name);
    expect(names).toContain('Kim');
    expect(names).not.toContain('Lee');
    expect(await store.unreadable()).toMatchObject([
      { from: 'players', key: 'p2', reason: 'can’t be read from the disk', value: undefined },
    ]);
  });
});

it('a cache that can’t be read is thrown away, and made again from the records', async () => {
  const store = await page();
  const takes = Array.from({ length: FEWEST_PACKED }, (_, index) => ({ ...take, id: `t${index}` }));
  await store.putAll({
    takes: takes.map((one) => ({ take: one, summary: { ...summaryOf(one), playerId: '' } })),
  });
  await store.list();
  await vi.waitFor(async () => expect(await blocks()).toHaveLength(FEWEST_PACKED / 100));
  await damage('packed', (on) => on.put('[{"id":', 3));
  expect(await store.list()).toHaveLength(FEWEST_PACKED);
  await vi.waitFor(async () => expect((await blocks())[3]).toMatch(/\]$/));
  expect(await store.list()).toHaveLength(FEWEST_PACKED);
}, 60_000);

function blocks(): Promise<readonly string[]> {
  return new Promise((done) => {
    const opening = indexedDB.open('evenhand');
    opening.onsuccess = () => {
      const asked = opening.result.transaction('packed').objectStore('packed').getAll();
      asked.onsuccess = () => {
        opening.result.close();
        done(asked.result as string[]);
      };
    };
  });
}

it('a database that an update left half-made says which parts are missing, and what to do', async () => {
  await new Promise<void>((done) => {
    const opening = indexedDB.open('evenhand', 3);
    opening.onupgradeneeded = () => {
      for (const name of ['takes', 'summaries', 'running', 'chunks', 'small', 'packed', 'stale', 'players'])
        opening.result.createObjectStore(name);
    };
    opening.onsuccess = () => {
      opening.result.close();
      done();
    };
  });
  await expect(openStore()).rejects.toThrow(
    'storage is damaged, its phrases, rigs, sheets, notes are missing: delete this site’s data in the browser’s settings, load this page again, then bring your backup back',
  );
});
