import { beforeEach, expect, it, vi } from 'vitest';
import { backupEffects } from '../../src/effects/backup';
import { libraryEffects } from '../../src/effects/library';
import { noteEffects } from '../../src/effects/notes';
import { sheetEffects } from '../../src/effects/sheets';
import { takeEffects } from '../../src/effects/takes';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import type { Action } from '../../src/state/actions';
import { firstState } from '../../src/state/state';
import { gradeTake } from '../../src/take/grade-take';
import { contextFrom } from './context';

const saved = vi.hoisted((): string[] => []);
vi.mock(import('../../src/effects/save-file'), () => ({
  saveFile: (name: string) => void saved.push(name),
}));

const phrase = phraseNamed('Single paradiddle, accent walk');
const { take: model } = modelTake({ phrase, bpm: 84, seed: 5, cycles: 4 });

/** A teacher's page with two students of one name, the second having the turn. */
async function studio() {
  const store = memoryStore();
  const context = contextFrom({ ...firstState, phrase }, () => store);
  const library = libraryEffects(context, () => sheets);
  const { refresh } = library;
  const sheets = sheetEffects(context, refresh);
  const takes = takeEffects(context, refresh);
  context.listen([library, sheets, takes, backupEffects(context), noteEffects(context)]);
  await library.open();
  const done = async (...actions: readonly Action[]): Promise<void> => {
    for (const action of actions) {
      context.dispatch(action);
      await Promise.all(context.works);
    }
  };
  await done({ kind: 'new player', name: 'Kim Person' }, { kind: 'new player', name: 'Kim Person' });
  const { players } = context.state().library;
  const second = players.find(({ code }) => code === 'KP2')?.id ?? '';
  await done({ kind: 'choose player', id: second });
  return { ...context, done, store, second };
}

let page: Awaited<ReturnType<typeof studio>>;
beforeEach(async () => {
  saved.length = 0;
  vi.stubGlobal('navigator', {});
  page = await studio();
});

/** One of each kind is given out. */
async function allGiven(): Promise<readonly string[]> {
  const { done, store, second } = page;
  const take = { ...model, id: 'b6c1d2e3f4', playerId: second, recordedAt: '2026-03-02T18:04:00.000Z' };
  await store.put(take);
  await done({ kind: 'library', change: { takes: await store.list({ playerId: second }) } });
  await done({ kind: 'reviewed', take, report: gradeTake(take) }, { kind: 'download take', id: take.id });
  await done({ kind: 'write note' }, { kind: 'export note', as: 'html' }, { kind: 'export note', as: 'md' });
  await done({ kind: 'new sheet', id: 'week', dateMs: Date.parse('2026-03-02T12:00:00.000Z') });
  await done({ kind: 'export sheet' }, { kind: 'backup', playerId: second }, { kind: 'backup' });
  return saved.map((name) => name.replace(new Date().toISOString().slice(0, 10), 'TODAY'));
}

it('a student’s export, a backup, notes, sheets and takes each have a name of their own kind', async () => {
  expect(await allGiven()).toEqual([
    'take-KP2-2026-03-02-18-04-b6c1d2e3.take.json',
    'note-KP2-2026-03-02.html',
    'note-KP2-2026-03-02.md',
    'sheet-KP2-2026-03-09.week.json',
    'student-KP2-TODAY.library.json',
    'backup-TODAY.library.json',
  ]);
});

it('the whole name stands in them where it is wished, and nobody where that is', async () => {
  await page.done({ kind: 'names in files', as: 'name' });
  expect((await allGiven()).filter((name) => name.includes('Kim-Person'))).toHaveLength(5);
  saved.length = 0;
  await page.done({ kind: 'names in files', as: 'nobody' });
  expect((await allGiven()).filter((name) => /K/.test(name))).toEqual([]);
  expect(await page.store.kept('names in files')).toBe('nobody');
});

it('a page before short codes kept yes or no: yes is the whole name', async () => {
  await page.store.keep('names in files', true);
  const context = contextFrom(firstState, () => page.store);
  const library = libraryEffects(context, () => ({ shown: () => Promise.resolve([]) }));
  await library.open();
  expect(context.state().library.inFileNames).toBe('name');
});
