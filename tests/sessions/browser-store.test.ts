import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openStore, type BrowserStore } from '../../src/sessions/browser-store';
import type { Take } from '../../src/sessions/types';

// What must never be lost, and what a browser may do to storage: the IndexedDB standard, its error names.

function take(id: string, more: Partial<Take> = {}): Take {
  return {
    format: 'evenhand-take',
    version: 1,
    id,
    player: 'Sample player A',
    recordedAt: '2026-03-02T17:05:11.000Z',
    source: 'played',
    phrase: {
      title: 'Single paradiddle',
      beatsPerBar: 4,
      partialsPerBeat: 4,
      cycles: 1,
      bars: [{ variation: 'accent on 1', sticking: 'Rlrr Lrll Rlrr Lrll' }],
    },
    tempo: { bpm: 84 },
    click: 'on',
    limits: 'working',
    settings: {},
    rig: {
      levelLaw: 'gm2',
      inputDelayMs: 0,
      outputDelayMs: 0,
      surfaces: [{ id: 'pad', name: 'Pad', port: '*', channel: 10, notes: [38], hand: null, trimDb: 0 }],
    },
    downbeatMs: 2857.14,
    hits: [hit(2859.9), hit(3040), hit(3215)],
    notes: '',
    ...more,
  };
}

const hit = (atMs: number) => ({ atMs, port: 'Pad', channel: 10, note: 38, velocity: 101 });
function opening(id: string): Omit<Take, 'hits'> {
  const { hits, ...rest } = take(id);
  expect(hits).toHaveLength(3);
  return rest;
}

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

describe('takes', () => {
  it('are given back as they were put, keys of another program too', async () => {
    const store = await page();
    const one = { ...take('a'), weather: { rain: true } };
    await store.put(one);
    expect(await store.get('a')).toEqual(one);
    expect(await store.get('b')).toBeUndefined();
  });

  it('are there for the next page', async () => {
    await (await page()).put(take('a'));
    expect(await (await page()).get('a')).toEqual(take('a'));
  });

  it('are listed newest first, without their hits', async () => {
    const store = await page();
    await store.put(take('old', { recordedAt: '2026-03-01T10:00:00.000Z' }));
    await store.put(
      take('new', { recordedAt: '2026-03-03T10:00:00.000Z', tempo: { ramp: [{ bar: 0, bpm: 60 }] } }),
    );
    await store.put(take('between'));
    const list = await store.list();
    expect(list.map(({ id, bpm, hits }) => [id, bpm, hits])).toEqual([
      ['new', 60, 3],
      ['between', 84, 3],
      ['old', 84, 3],
    ]);
  });

  it('are gone when deleted, and only those', async () => {
    const store = await page();
    await store.put(take('a'));
    await store.put(take('b'));
    await store.delete('a');
    expect((await store.list()).map((one) => one.id)).toEqual(['b']);
    expect(await store.get('a')).toBeUndefined();
  });
});

describe('a take while it is played', () => {
  it('survives the death of its page with every hit that was kept', async () => {
    const dying = await page();
    await dying.begin(opening('a'));
    await dying.append('a', 0, [hit(2859.9), hit(3040)]);
    await dying.append('a', 1, [hit(3215)]);
    const next = await page();
    const [recovered] = await next.recover();
    expect(recovered.hits).toEqual(take('a').hits);
    expect(recovered.notes).toBe('The page closed during this take: it ends where the page did.');
    expect((await next.get('a'))?.hits).toHaveLength(3);
    expect(await next.recover()).toEqual([]);
  });

  it('counts a chunk that was kept twice once', async () => {
    const store = await page();
    await store.begin(opening('a'));
    await store.append('a', 0, [hit(1), hit(2)]);
    await store.append('a', 0, [hit(1), hit(2), hit(3)]);
    const [recovered] = await (await page()).recover();
    expect(recovered.hits).toEqual([hit(1), hit(2), hit(3)]);
  });

  it('is a take like any other once finished', async () => {
    const store = await page();
    await store.begin(opening('a'));
    await store.append('a', 0, take('a').hits);
    await store.finish(take('a'));
    expect(await (await page()).recover()).toEqual([]);
    expect(await store.get('a')).toEqual(take('a'));
  });

  it('leaves nothing when discarded, nor when it had under two hits', async () => {
    const store = await page();
    await store.begin(opening('a'));
    await store.append('a', 0, take('a').hits);
    await store.discard('a');
    await store.begin(opening('b'));
    await store.append('b', 0, [hit(1)]);
    const next = await page();
    expect(await next.recover()).toEqual([]);
    expect(await next.list()).toEqual([]);
  });

  it('is left alone while this page or another one plays it', async () => {
    const store = await page();
    await store.begin(opening('mine'));
    await store.append('mine', 0, take('mine').hits);
    expect(await store.recover()).toEqual([]);
    const locks = { query: () => Promise.resolve({ held: [{ name: 'evenhand-playing-mine' }] }) };
    vi.stubGlobal('navigator', { locks });
    expect(await (await page()).recover()).toEqual([]);
    vi.stubGlobal('navigator', { locks: { query: () => Promise.resolve({ held: [] }) } });
    expect(await (await page()).recover()).toHaveLength(1);
  });
});

describe('small things', () => {
  it('are kept by name', async () => {
    const store = await page();
    await store.keep('rig', take('a').rig);
    expect(await (await page()).kept('rig')).toEqual(take('a').rig);
    expect(await store.kept('theme')).toBeUndefined();
  });
});

describe('when the browser will not', () => {
  it('says so where there is no storage', async () => {
    vi.stubGlobal('indexedDB', undefined);
    await expect(openStore()).rejects.toThrow(
      'storage is not there in this browser window: download a take to keep it',
    );
  });

  it('says that there is no room, and keeps what was there', async () => {
    const store = await page();
    await store.put(take('a'));
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('The disk is full.', 'QuotaExceededError');
    });
    await expect(store.keep('rig', 1)).rejects.toThrow(
      'storage has no room left: download your takes, then delete some',
    );
    await expect(store.put(take('b'))).rejects.toThrow('storage has no room left');
    vi.restoreAllMocks();
    expect(await store.get('a')).toEqual(take('a'));
    expect((await store.list()).map((one) => one.id)).toEqual(['a']);
  });

  it('says that a newer page wrote it', async () => {
    const request = indexedDB.open('evenhand', 99);
    await new Promise((done) => (request.onsuccess = done));
    request.result.close();
    await expect(openStore()).rejects.toThrow('storage was written by a newer page of this app');
  });

  it('gives way to a newer page and says so', async () => {
    const store = await page();
    const request = indexedDB.open('evenhand', 99);
    await new Promise((done) => (request.onsuccess = done));
    request.result.close();
    await expect(store.put(take('a'))).rejects.toThrow('storage was taken over by a newer page of this app');
  });
});
