import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openStore, type BrowserStore } from '../../src/sessions/browser-store';
import { newestFirst, packed, unpacked } from '../../src/sessions/packed-records';
import { newPlayer } from '../../src/sessions/player';
import { asListed, type TakeSummary } from '../../src/sessions/take-record';
import type { Take } from '../../src/sessions/types';
import { record } from '../insight/history/records';

// No outside source: what is packed must never say anything else than the records themselves.

const AT = '2026-03-02T17:00:00.000Z';

const many = (n: number): readonly TakeSummary[] =>
  Array.from({ length: n }, (_, index) =>
    record(`t${index}`, {
      playerId: index % 2 === 0 ? 'kim' : 'lee',
      recordedAt: new Date(Date.parse(AT) + index * 60_000).toISOString(),
    }),
  );

const takeOf = ({ id, recordedAt }: TakeSummary): Take =>
  ({ format: 'evenhand-take', version: 1, id, recordedAt, hits: [] }) as unknown as Take;

let store: BrowserStore;
beforeEach(async () => {
  vi.stubGlobal('indexedDB', new IDBFactory());
  store = await openStore();
  await store.putAll({
    players: [newPlayer('kim', 'Kim', AT), newPlayer('lee', 'Lee', AT)],
    takes: many(1200).map((summary) => ({ take: takeOf(summary), summary })),
  });
});
afterEach(() => {
  store.close();
  vi.unstubAllGlobals();
});

const blocksKept = (): Promise<number> =>
  new Promise((done) => {
    const opening = indexedDB.open('evenhand');
    opening.onsuccess = () => {
      const asked = opening.result.transaction('packed').objectStore('packed').count();
      asked.onsuccess = () => {
        opening.result.close();
        done(asked.result);
      };
    };
  });

describe('a thousand takes and more', () => {
  it('are listed the same, packed or not, whatever became of them since', async () => {
    const before = await store.list();
    expect(before.map(({ id }) => id).slice(0, 2)).toEqual(['t1199', 't1198']);
    await expect.poll(blocksKept).toBe(12);
    expect(await store.list()).toEqual(before);
    expect(await store.list({ playerId: 'lee' })).toHaveLength(600);

    await store.describe('t1199', 'Every variation holds.');
    await store.delete('t1198');
    await store.give(['t0'], 'lee');
    const [newest, next] = await store.list();
    expect(newest.sentence).toBe('Every variation holds.');
    expect(next.id).toBe('t1197');
    expect(await store.list({ playerId: 'lee' })).toHaveLength(601);

    await store.mergePlayers('lee', 'kim');
    expect(await store.list({ playerId: 'lee' })).toEqual([]);
    const merged = await store.list({ playerId: 'kim' });
    expect(merged).toHaveLength(1199);
    // More than 200 have changed: they are packed anew behind that list, and say the same.
    await expect.poll(async () => (await store.list({ playerId: 'kim' })).length).toBe(1199);
    expect(await store.list({ playerId: 'kim', most: 3 })).toEqual(merged.slice(0, 3));

    await store.forgetPlayer('kim');
    expect(await store.list()).toEqual([]);
  });
});

describe('packed records', () => {
  it('come back as they were; stale ones are left out, fresh ones put in their place', () => {
    const [first, second, third] = many(3);
    const changed = { ...second, sentence: 'lower by −2 dB, “softly”' };
    expect(unpacked(packed([first, second, third]), ['t1', 't2'], [changed])).toEqual([first, changed]);
    expect(unpacked(packed([changed, third]), [], [])).toEqual([changed, third]);
  });

  it('are texts of one byte a sign, whatever stands in them', () => {
    const [first] = many(1);
    const [text] = packed([{ ...first, sentence: 'lower by −2 dB, “softly”', title: 'Übung é' }]);
    expect([...text].every((sign) => sign.charCodeAt(0) <= 0xff)).toBe(true);
    expect((JSON.parse(text) as TakeSummary[])[0].sentence).toBe('lower by −2 dB, “softly”');
  });

  it('stand newest first, and of one moment by their ids, whatever order they come in', () => {
    const at = (id: string, recordedAt: string): TakeSummary => ({ ...record(id), recordedAt });
    const [old, a, b, c] = [
      at('z', '2026-03-01T17:00:00.000Z'),
      at('a', AT),
      at('b', AT),
      at('c', '2026-03-03T17:00:00.000Z'),
    ];
    for (const order of [
      [old, a, b, c],
      [b, a, c, old],
      [c, old, b, a],
      [a, c, b, old],
    ])
      expect(newestFirst(order)).toEqual([c, b, a, old]);
  });

  it('have of their measures what is followed; whole records keep all', async () => {
    const figure = { value: 1.5, interval: [1, 2] as const };
    const graded = {
      version: 1 as const,
      weakest: null,
      measures: { contrast: figure, balanceSoft: figure, fade: figure },
      bars: [],
    };
    await store.describe('t1199', 'Every variation holds.', graded);
    const [newest] = await store.list({ most: 1 });
    expect(newest.graded).toEqual({ ...graded, measures: { contrast: figure, balanceSoft: figure } });
    const [whole] = await store.records();
    expect(whole.graded).toEqual(graded);
    expect(asListed(whole)).toEqual(newest);
    expect((await store.records('kim')).map(({ playerId }) => playerId)).toEqual(Array(600).fill('kim'));
  });
});
