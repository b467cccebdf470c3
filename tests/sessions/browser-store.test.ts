import 'fake-indexeddb/auto';
import { forceCloseDatabase, IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openStore, type BrowserStore } from '../../src/sessions/browser-store';
import { newPlayer } from '../../src/sessions/player';
import { summaryOf } from '../../src/sessions/take-record';
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
async function page(deleted?: () => void): Promise<BrowserStore> {
  const store = await openStore(deleted);
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

  it('have a record each, which says whose they are', async () => {
    const store = await page();
    await store.put(take('a', { playerId: 'k' }));
    expect(await store.record('a')).toMatchObject({ id: 'a', playerId: 'k', hits: 3 });
    expect(await store.record('b')).toBeUndefined();
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
    const locks = heldLocks('evenhand-playing-mine');
    vi.stubGlobal('navigator', { locks });
    expect(await (await page()).recover()).toEqual([]);
    expect(await (await page()).list()).toEqual([]);
    vi.stubGlobal('navigator', { locks: { query: () => Promise.resolve({ held: [] }) } });
    expect(await (await page()).recover()).toHaveLength(1);
  });

  it('is kept a moment later where its page was still dying, and by one page only', async () => {
    const store = await page();
    await store.begin(opening('cut'));
    await store.append('cut', 0, take('cut').hits);
    await store.begin(opening('ended'));
    await store.append('ended', 0, take('ended').hits);
    const locks = heldLocks('evenhand-playing-cut', 'evenhand-playing-ended');
    vi.stubGlobal('navigator', { locks });
    const told: string[] = [];
    const first = await page();
    expect(await first.recover(({ id }) => told.push(`first: ${id}`))).toEqual([]);
    expect(await (await page()).recover(({ id }) => told.push(`second: ${id}`))).toEqual([]);
    expect(told).toEqual([]);
    await store.finish(take('ended'));
    await locks.letGo();
    expect(told).toEqual(['first: cut']);
    expect((await first.list()).map(({ id, hits }) => [id, hits]).sort()).toEqual([
      ['cut', 3],
      ['ended', 3],
    ]);
    expect((await first.get('ended'))?.notes).toBe('');
  });
});

/** Marks that other pages hold until `letGo`; what waits for one is done in turn, as the Web Locks standard says. */
function heldLocks(...names: readonly string[]) {
  const waiting: (() => Promise<void>)[] = [];
  return {
    query: () => Promise.resolve({ held: names.map((name) => ({ name })) }),
    request: (_name: string, work: () => Promise<void>) =>
      new Promise<void>((resolve, reject) => {
        waiting.push(() => work().then(resolve, reject));
      }),
    async letGo() {
      for (const work of waiting) await work();
    },
  };
}

describe('players', () => {
  const day = (id: string, playerId: string, date: string): Take =>
    take(id, { playerId, recordedAt: `2026-03-${date}T10:00:00.000Z` });
  const file = (id: string, playerId: string) => ({
    id,
    playerId,
    changedAt: '2026-03-02T10:00:00.000Z',
    file: { words: id },
  });

  async function twoPlayers(): Promise<BrowserStore> {
    const store = await page();
    await store.place('players', newPlayer('kim', 'Kim', '2026-03-01T10:00:00.000Z'));
    await store.place('players', newPlayer('lee', '12', '2026-03-01T10:00:00.000Z'));
    for (const one of [day('k1', 'kim', '02'), day('k2', 'kim', '04'), day('l1', 'lee', '03')]) {
      await store.put(one);
    }
    await store.place('sheets', file('for kim', 'kim'));
    await store.place('notes', file('on kim', 'kim'));
    await store.place('notes', file('on lee', 'lee'));
    return store;
  }
  const idsOf = async (store: BrowserStore, playerId?: string): Promise<string[]> =>
    (await store.list(playerId === undefined ? {} : { playerId })).map(({ id }) => id);

  it('there is one from the start, without a name, and it is its turn', async () => {
    const store = await page();
    const [player] = await store.all('players');
    expect(player).toMatchObject({ name: '', lead: 'R', limits: 'working' });
    expect(await store.kept('player')).toBe(player.id);
  });

  it('have takes of their own, newest first, and the newest few come alone', async () => {
    const store = await twoPlayers();
    expect(await idsOf(store, 'kim')).toEqual(['k2', 'k1']);
    expect(await idsOf(store, 'lee')).toEqual(['l1']);
    expect(await idsOf(store)).toEqual(['k2', 'l1', 'k1']);
    expect((await store.list({ most: 2 })).map(({ id }) => id)).toEqual(['k2', 'l1']);
    expect((await store.list({ playerId: 'kim', most: 1 })).map(({ id }) => id)).toEqual(['k2']);
    expect([await store.count(), await store.count('kim')]).toEqual([3, 2]);
  });

  it('one is forgotten wholly, and nothing of another', async () => {
    const store = await twoPlayers();
    await store.forgetPlayer('kim');
    expect(await idsOf(store)).toEqual(['l1']);
    expect(await store.get('k1')).toBeUndefined();
    expect((await store.all('players')).map(({ id }) => id)).not.toContain('kim');
    expect(await store.all('sheets')).toEqual([]);
    expect((await store.all('notes')).map(({ id }) => id)).toEqual(['on lee']);
  });

  it('two that are one are merged, and their takes stay as they were played', async () => {
    const store = await twoPlayers();
    await store.mergePlayers('lee', 'kim');
    expect(await idsOf(store, 'kim')).toEqual(['k2', 'l1', 'k1']);
    expect(await store.get('l1')).toEqual(day('l1', 'lee', '03'));
    expect((await store.all('notes')).every(({ playerId }) => playerId === 'kim')).toBe(true);
    expect((await store.all('players')).map(({ id }) => id)).not.toContain('lee');
  });

  it('a merge with oneself changes nothing', async () => {
    const store = await twoPlayers();
    await store.mergePlayers('kim', 'kim');
    expect(await idsOf(store, 'kim')).toEqual(['k2', 'k1']);
    expect((await store.all('players')).map(({ id }) => id)).toContain('kim');
  });

  it('a take that the teacher played is no player’s', async () => {
    const store = await twoPlayers();
    await store.put({ ...take('lesson'), playerId: 'kim', teacher: true });
    expect((await store.record('lesson'))?.playerId).toBe('teacher');
    expect((await store.list({ playerId: 'teacher' })).map(({ id }) => id)).toEqual(['lesson']);
  });

  it('a take given to another is graded and listed as theirs', async () => {
    const store = await twoPlayers();
    await store.describe('k1', 'Every variation holds.');
    await store.give(['k1', 'gone'], 'lee');
    expect(await idsOf(store, 'lee')).toEqual(['l1', 'k1']);
    expect((await store.list({ playerId: 'lee' }))[1].sentence).toBe('Every variation holds.');
  });
});

describe('one thing that two windows change', () => {
  it('has both changes: each is of the thing as it stands then, not as it was shown', async () => {
    const [one, other] = [await page(), await page()];
    await one.place('players', newPlayer('k', 'Kim', '2026-03-02T18:00:00.000Z'));
    await Promise.all([
      one.alter('players', 'k', (player) => ({ ...player, name: 'Kim P.' })),
      other.alter('players', 'k', (player) => ({ ...player, lead: 'L' })),
    ]);
    const [, kim] = (await one.all('players')).toSorted((a, b) => (a.name < b.name ? -1 : 1));
    expect([kim.name, kim.lead]).toEqual(['Kim P.', 'L']);
  });

  it('that is gone by then is not made again', async () => {
    const store = await page();
    await store.alter('rigs', 'gone', (rig) => rig);
    expect(await store.all('rigs')).toEqual([]);
  });
});

describe('a batch', () => {
  it('is put away whole', async () => {
    const store = await page();
    const one = take('a', { playerId: 'kim' });
    await store.putAll({
      players: [newPlayer('kim', 'Kim', '2026-03-01T10:00:00.000Z')],
      takes: [{ take: one, summary: { ...summaryOf(one), sentence: 'Kept.' } }],
    });
    expect(await store.get('a')).toEqual(one);
    expect((await store.list({ playerId: 'kim' }))[0].sentence).toBe('Kept.');
  });

  it('or not at all', async () => {
    const store = await page();
    const nameless = { ...newPlayer('kim', 'Kim', '2026-03-01T10:00:00.000Z'), id: undefined as never };
    const one = take('a');
    await expect(
      store.putAll({ players: [nameless], takes: [{ take: one, summary: summaryOf(one) }] }),
    ).rejects.toThrow();
    expect(await store.list()).toEqual([]);
  });
});

describe('a library of the first version', () => {
  /** As the page of version 1 made it: takes, summaries, running, chunks, small. */
  async function firstVersion(fill: (change: IDBTransaction) => void): Promise<void> {
    const request = indexedDB.open('evenhand', 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('takes', { keyPath: 'id' });
      request.result.createObjectStore('summaries', { keyPath: 'id' });
      for (const name of ['running', 'chunks', 'small']) request.result.createObjectStore(name);
    };
    await new Promise((done) => (request.onsuccess = done));
    const stores = ['takes', 'summaries', 'running', 'chunks', 'small'];
    const change = request.result.transaction(stores, 'readwrite');
    fill(change);
    await new Promise((done) => (change.oncomplete = done));
    request.result.close();
  }

  it('opens with every take whole, as the first player’s, with its sentence', async () => {
    await firstVersion((change) => {
      for (const id of ['a', 'b']) change.objectStore('takes').put(take(id));
      const old = {
        id: 'a',
        title: 'Single paradiddle',
        player: '',
        bpm: 84,
        hits: 3,
        sentence: 'It holds.',
      };
      change
        .objectStore('summaries')
        .put({ ...old, recordedAt: '2026-03-02T17:05:11.000Z', source: 'played' });
    });
    const store = await page();
    const [player] = await store.all('players');
    const list = await store.list({ playerId: player.id });
    expect(list.map(({ id }) => id).sort()).toEqual(['a', 'b']);
    expect(list.find(({ id }) => id === 'a')).toMatchObject({ sentence: 'It holds.', rigName: 'Pad' });
    expect(await store.get('b')).toEqual(take('b'));
  });

  it('opens with its phrases and its rig on their shelves', async () => {
    const { phrase, rig } = take('a');
    const file = { format: 'evenhand-phrase', version: 1, name: 'For Tuesday', phrase, bpm: 92 };
    await firstVersion((change) => {
      change.objectStore('small').put([file, null, { name: 3 }], 'phrases');
      change.objectStore('small').put(rig, 'rig');
    });
    const store = await page();
    expect(await store.all('phrases')).toEqual([file]);
    expect((await store.all('rigs')).map((one) => one.rig)).toEqual([rig]);
    expect(await store.kept('rig')).toEqual(rig);
  });

  it('that an older page holds on to is not opened, and says so', async () => {
    await firstVersion((change) => void change.objectStore('takes').put(take('a')));
    const request = indexedDB.open('evenhand', 1);
    await new Promise((done) => (request.onsuccess = done));
    await expect(openStore()).rejects.toThrow('storage is held by another page of this app: close that one');
    request.result.close();
    expect(await (await page()).get('a')).toEqual(take('a'));
  });

  it('recovers a take that was being played when its page died', async () => {
    await firstVersion((change) => {
      change.objectStore('running').put(opening('a'), 'a');
      change.objectStore('chunks').put(take('a').hits, ['a', 0]);
    });
    expect((await (await page()).recover()).map(({ id }) => id)).toEqual(['a']);
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

/** Databases as they are opened from now on, so that a test can close one as a browser does. */
function watchOpening(): IDBDatabase[] {
  const opened: IDBDatabase[] = [];
  const { open } = IDBFactory.prototype;
  vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(function (this: IDBFactory, name, version) {
    const request = open.call(this, name, version);
    request.addEventListener('success', () => opened.push(request.result as unknown as IDBDatabase));
    return request;
  });
  return opened;
}

const closedByBrowser = (db: IDBDatabase): void =>
  forceCloseDatabase(db as unknown as Parameters<typeof forceCloseDatabase>[0]);

const deleteDatabase = (): Promise<void> =>
  new Promise((done, fail) => {
    const request = indexedDB.deleteDatabase('evenhand');
    request.onsuccess = () => done();
    request.onerror = () => fail(new Error('not deleted'));
  });

describe('a database that is cut off while the page is open', () => {
  it('is opened anew where the browser closed it, and nobody has to know', async () => {
    const opened = watchOpening();
    const deleted = vi.fn();
    const store = await page(deleted);
    await store.put(take('a'));
    closedByBrowser(opened[0]);
    await new Promise((done) => setTimeout(done, 5));
    await store.put(take('b'));
    expect((await store.list()).map(({ id }) => id).sort()).toEqual(['a', 'b']);
    expect(opened).toHaveLength(2);
    expect(deleted).not.toHaveBeenCalled();
  });

  it('has the work done once more that was broken off in its middle', async () => {
    const opened = watchOpening();
    const store = await page();
    const { put } = IDBObjectStore.prototype;
    let cuts = 1;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...args) {
      if (this.name === 'takes' && cuts > 0) {
        cuts -= 1;
        closedByBrowser(opened[0]);
      }
      return put.apply(this, args);
    });
    await store.put(take('a'));
    expect(await store.get('a')).toEqual(take('a'));
    expect((await store.list()).map(({ id }) => id)).toEqual(['a']);
  });

  it('that does not open again is said so, and is tried anew by the next work', async () => {
    const opened = watchOpening();
    const store = await page();
    closedByBrowser(opened[0]);
    await new Promise((done) => setTimeout(done, 5));
    const open = vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('Internal error opening backing store.', 'UnknownError');
    });
    await expect(store.put(take('a'))).rejects.toThrow(/^storage could not be used: .* the disk may be full/);
    open.mockRestore();
    await store.put(take('a'));
    expect(await store.get('a')).toEqual(take('a'));
  });

  it('that was deleted is told of once, and what is put from then on is kept in a new one', async () => {
    const deleted = vi.fn();
    const store = await page(deleted);
    await store.put(take('a'));
    await deleteDatabase();
    await store.put(take('b'));
    expect(await store.get('a')).toBeUndefined();
    expect((await store.list()).map(({ id }) => id)).toEqual(['b']);
    expect(deleted).toHaveBeenCalledTimes(1);
  });

  it('that was deleted has none of a running take, and says so to whoever goes on with it', async () => {
    const store = await page();
    await store.begin(opening('a'));
    expect(await store.append('a', 0, [hit(1)])).toBe(true);
    await deleteDatabase();
    expect(await store.append('a', 1, [hit(2)])).toBe(false);
    await store.begin(opening('a'));
    expect(await store.append('a', 0, [hit(1), hit(2)])).toBe(true);
    const [recovered] = await (await page()).recover();
    expect(recovered.hits).toEqual([hit(1), hit(2)]);
  });
});
