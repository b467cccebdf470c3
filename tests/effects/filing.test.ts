import { beforeEach, expect, it } from 'vitest';
import { fileEffects } from '../../src/effects/files';
import { filingEffects } from '../../src/effects/filing';
import { libraryEffects } from '../../src/effects/library';
import { sheetEffects } from '../../src/effects/sheets';
import { takeEffects } from '../../src/effects/takes';
import { unkeptEffects } from '../../src/effects/unkept';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import { newPlayer } from '../../src/sessions/player';
import type { BrowserStore } from '../../src/sessions/browser-store';
import { writeTake } from '../../src/sessions/take';
import type { Take } from '../../src/sessions/types';
import { writeWeekSheet, type WeekSheet } from '../../src/sessions/week-sheet';
import type { Action } from '../../src/state/actions';
import { firstState } from '../../src/state/state';
import { contextFrom } from './context';

const NOW = '2026-03-02T18:00:00.000Z';
const phrase = phraseNamed('Single paradiddle, accent walk');
const { take } = modelTake({ phrase, bpm: 84, seed: 5, cycles: 2 });
const played = (id: string, more: Partial<Take>): File =>
  new File([writeTake({ ...take, id, player: '', ...more })], `${id}.take.json`);
const sheet: WeekSheet = {
  format: 'evenhand-week',
  version: 1,
  id: 'week-9',
  student: 'A. B.',
  phrase,
  bpm: 84,
  limits: 'working',
  targets: [],
  words: '',
  due: null,
  changedAt: NOW,
};

/** A teacher's page: AB has a week sheet at home, CD has the turn. */
async function studio() {
  const store = memoryStore();
  for (const { id } of await store.all('players')) await store.remove('players', id);
  await store.place('players', newPlayer('ab', 'A. B.', NOW));
  await store.place('players', newPlayer('cd', 'C. D.', NOW));
  await store.place('sheets', { id: 'week-9', playerId: 'ab', changedAt: NOW, file: sheet });
  await store.keep('player', 'cd');
  const context = contextFrom({ ...firstState }, () => store);
  const library = libraryEffects(context, () => sheets);
  const { refresh, turnTo } = library;
  const sheets = sheetEffects(context, refresh);
  const takes = takeEffects(context, refresh);
  const filing = filingEffects(context, { refresh, turnTo, show: takes.show });
  const files = fileEffects(
    context,
    {
      refresh,
      takes,
      sheets,
      unkept: unkeptEffects(context, takes.settle, () => false),
      phrases: { add: () => Promise.resolve() },
      rigs: { add: () => undefined },
      backup: { restore: () => Promise.resolve('a backup') },
    },
    () => Promise.resolve(),
  );
  context.listen([library, sheets, takes, filing, files]);
  await refresh();
  const done = async (action: Action): Promise<void> => {
    context.dispatch(action);
    await Promise.all(context.works);
  };
  return { ...context, done, kept: store };
}

const ownersIn = async (store: BrowserStore): Promise<Record<string, string>> =>
  Object.fromEntries((await store.list()).map(({ id, playerId }) => [id, playerId]));

let page: Awaited<ReturnType<typeof studio>>;
beforeEach(async () => {
  page = await studio();
});

it('a returned take goes to its sheet’s player, is said so, and does not come onto the page of who has the turn', async () => {
  const { state, done, kept } = page;
  await done({ kind: 'add files', files: [played('back', { sheetId: 'week-9', playerId: 'at-home' })] });
  expect(await ownersIn(kept)).toEqual({ back: 'ab' });
  expect(state().library.files).toMatchObject([{ added: true, filed: { playerId: 'ab', by: 'sheet' } }]);
  expect([state().library.playerId, state().reviewed]).toEqual(['cd', null]);

  await done({ kind: 'open theirs', id: 'back', playerId: 'ab' });
  expect(state().library.playerId).toBe('ab');
  expect(state().reviewed?.take.id).toBe('back');
});

it('of sixty files each goes to its own player, and those of one can be moved together', async () => {
  const { state, done, kept } = page;
  const names = ['A. B.', 'c. d.'];
  const files = Array.from({ length: 60 }, (_, index) => played(`t${index}`, { player: names[index % 2] }));
  await done({ kind: 'add files', files });
  const filedWith = (playerId: string) =>
    state().library.files.flatMap(({ filed }) => (filed?.playerId === playerId ? [filed.id] : []));
  expect([filedWith('ab').length, filedWith('cd').length]).toEqual([30, 30]);
  await done({ kind: 'file with', ids: filedWith('cd'), playerId: 'ab' });
  expect(filedWith('ab')).toHaveLength(60);
  expect(new Set(Object.values(await ownersIn(kept)))).toEqual(new Set(['ab']));
}, 60_000);

it('whose it is is asked once where nothing tells: the next one of that player is known', async () => {
  const { state, done, kept } = page;
  const from = { player: 'Me', playerId: 'at-home' };
  await done({ kind: 'add files', files: [played('first', from)] });
  expect(await ownersIn(kept)).toEqual({ first: '' });
  expect(state().library.files).toMatchObject([{ filed: { playerId: '', by: null, named: { name: 'Me' } } }]);
  await done({ kind: 'file with', ids: ['first'], playerId: 'ab' });
  expect(await ownersIn(kept)).toEqual({ first: 'ab' });
  expect(state().library.files).toMatchObject([{ filed: { playerId: 'ab', by: 'said' } }]);

  await done({ kind: 'add files', files: [played('second', from)] });
  expect(await ownersIn(kept)).toEqual({ first: 'ab', second: 'ab' });
  expect(state().library.files).toMatchObject([{ filed: { playerId: 'ab', by: 'known' } }]);
});

it('a take that was given to another is not taken back by its own file', async () => {
  const { done, kept } = page;
  const file = played('t', { player: 'A. B.' });
  await done({ kind: 'add files', files: [file] });
  await done({ kind: 'give', what: 'take', id: 't', playerId: 'cd' });
  await done({ kind: 'add files', files: [file] });
  expect(await ownersIn(kept)).toEqual({ t: 'cd' });
});

it('a week sheet goes to the student it names, is not opened for another, and can be given on', async () => {
  const { state, done, kept } = page;
  const coming = new File([writeWeekSheet({ ...sheet, id: 'week-10' })], 'sheet.week.json');
  await done({ kind: 'add files', files: [coming] });
  const owners = async () => (await kept.all('sheets')).map(({ id, playerId }) => [id, playerId]);
  expect(await owners()).toEqual([
    ['week-9', 'ab'],
    ['week-10', 'ab'],
  ]);
  expect([state().library.sheetId, state().screen]).toEqual(['', 'today']);
  await done({ kind: 'give', what: 'week sheet', id: 'week-10', playerId: 'cd' });
  expect(await owners()).toEqual([
    ['week-9', 'ab'],
    ['week-10', 'cd'],
  ]);
  expect(state().message).toBe('The week sheet is C. D.’s now.');
});

it('a week sheet that is written for one is kept with them, also where another has the turn by then', async () => {
  const { done, kept } = page;
  await done({ kind: 'edit sheet', sheet: { ...sheet, id: 'week-11' }, playerId: 'ab' });
  await done({ kind: 'keep sheet' });
  expect((await kept.all('sheets')).find(({ id }) => id === 'week-11')?.playerId).toBe('ab');
});

it('the turn stays while a take is played', async () => {
  const { state, done } = page;
  const { grid } = modelTake({ phrase, bpm: 84, seed: 5, cycles: 1 });
  await done({ kind: 'started', running: { grid, takeId: 't', bare: [] } });
  await done({ kind: 'choose player', id: 'ab' });
  expect(state().library.playerId).toBe('cd');
});
