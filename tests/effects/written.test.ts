import { beforeEach, expect, it, vi } from 'vitest';
import { filingEffects } from '../../src/effects/filing';
import { historyEffects } from '../../src/effects/history';
import { libraryEffects } from '../../src/effects/library';
import { noteEffects } from '../../src/effects/notes';
import { sheetEffects } from '../../src/effects/sheets';
import { takeEffects } from '../../src/effects/takes';
import { todayEffects } from '../../src/effects/today';
import { writtenEffects } from '../../src/effects/written';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import type { BrowserStore } from '../../src/sessions/browser-store';
import { newPlayer } from '../../src/sessions/player';
import type { Action } from '../../src/state/actions';
import { firstState } from '../../src/state/state';
import { contextFrom } from './context';

vi.mock('../../src/effects/save-file', () => ({
  saveFile: () => undefined,
}));

const NOW = '2026-03-02T18:00:00.000Z';
const phrase = phraseNamed('Single paradiddle, accent walk');
const { take } = modelTake({ phrase, bpm: 84, seed: 5, cycles: 2 });

let store: BrowserStore;
beforeEach(async () => {
  store = memoryStore();
  for (const { id } of await store.all('players')) await store.remove('players', id);
  await store.place('players', newPlayer('ab', 'A. B.', NOW));
  await store.place('players', newPlayer('cd', 'C. D.', NOW));
  await store.keep('player', 'ab');
  await store.put({ ...take, playerId: 'ab' });
});

/** The page over that store: another one each time it is opened, as after a reload. */
async function opened() {
  const context = contextFrom({ ...firstState }, () => store);
  const library = libraryEffects(context, () => sheets);
  const { refresh, turnTo } = library;
  const sheets = sheetEffects(context, refresh);
  const takes = takeEffects(context, refresh);
  context.listen([
    library,
    sheets,
    takes,
    noteEffects(context),
    historyEffects(context),
    todayEffects(context, library.change),
    filingEffects(context, { refresh, turnTo, show: takes.show }),
    writtenEffects(context, refresh, takes.show),
  ]);
  await refresh();
  const done = async (...actions: readonly Action[]): Promise<void> => {
    for (const action of actions) {
      context.dispatch(action);
      // Each may set off others.
      for (let before = -1; before < context.works.length;) {
        before = context.works.length;
        await Promise.all(context.works);
      }
    }
  };
  return { ...context, done };
}

const openNote: readonly Action[] = [{ kind: 'open take', id: take.id }, { kind: 'write note' }];
const words = (text: string): Action => ({ kind: 'change note', change: { words: text } });

it('the words of a note survive another screen, another player’s turn and a reload', async () => {
  const first = await opened();
  await first.done(...openNote, words('Low left hand.'), { kind: 'go', screen: 'play' });
  expect(first.state().note).toBeNull();
  await first.done({ kind: 'choose player', id: 'cd' });
  expect(first.state().library.begun).toEqual([]);

  const { state, done } = await opened();
  await done({ kind: 'choose player', id: 'ab' });
  expect(state().library.begun.map(({ draft }) => draft)).toMatchObject([
    { of: 'note', takeId: take.id, title: phrase.title, words: 'Low left hand.' },
  ]);
  await done({ kind: 'go on with note', takeId: take.id });
  expect([state().screen, state().note?.text.words]).toEqual(['review', 'Low left hand.']);
});

it('a note that nothing was written in is none that is begun', async () => {
  const { state, done } = await opened();
  await done(...openNote, { kind: 'close note' });
  expect(await store.filesOf('notes', 'ab')).toEqual([]);
  expect(state().library.begun).toEqual([]);
});

it('what was given is listed with its words as they were then, each day’s same words once', async () => {
  const { state, done } = await opened();
  await done(...openNote, words('First.'), { kind: 'printed', what: 'note' });
  await done({ kind: 'export note', as: 'html' });
  await done(words('Second.'), { kind: 'export note', as: 'md' });
  const given = state().library.given.map(({ what, as, title, words: said }) => [what, as, title, said]);
  expect(given).toHaveLength(2);
  expect(given).toEqual(
    expect.arrayContaining([
      ['note', 'print', `${phrase.title}, 84 bpm`, 'First.'],
      ['note', 'Markdown', `${phrase.title}, 84 bpm`, 'Second.'],
    ]),
  );
  await done({ kind: 'choose player', id: 'cd' });
  expect(state().library.given).toEqual([]);
});

it('a week sheet that is begun survives a reload with its targets, and is begun no more once it is kept', async () => {
  const first = await opened();
  await first.done(
    { kind: 'new sheet', id: 'week-9', dateMs: Date.parse(NOW) },
    { kind: 'change sheet', change: { words: 'Slow.' } },
    { kind: 'add target', target: 'minutes' },
    { kind: 'go', screen: 'play' },
  );
  const { state, done } = await opened();
  const [{ draft }] = state().library.begun;
  if (draft.of !== 'week sheet') throw new Error('no sheet is begun');
  await done({ kind: 'edit sheet', sheet: draft.sheet, playerId: 'ab' });
  expect(state().library.draft).toMatchObject({ id: 'week-9', words: 'Slow.' });
  expect(state().library.draft?.targets.map(({ kind }) => kind)).toEqual(['tempo', 'minutes']);
  await done({ kind: 'keep sheet' });
  expect([state().library.begun, state().library.sheets.length]).toEqual([[], 1]);
  await done({ kind: 'edit sheet', sheet: state().library.sheets[0].sheet, playerId: 'ab' });
  await done({ kind: 'export sheet' });
  expect(state().library.given).toMatchObject([
    {
      what: 'week sheet',
      as: 'file',
      words: 'Slow.',
      target: '84 bpm, with four bars of five clean; 60 minutes of playing',
    },
  ]);
});

it('a kept sheet that was changed and left opens as it was changed', async () => {
  const { state, done } = await opened();
  await done({ kind: 'new sheet', id: 'week-9', dateMs: Date.parse(NOW) }, { kind: 'keep sheet' });
  const [{ sheet }] = state().library.sheets;
  const edit: Action = { kind: 'edit sheet', sheet, playerId: 'ab' };
  await done(
    edit,
    { kind: 'change sheet', change: { words: 'Slower.' } },
    { kind: 'go', screen: 'play' },
    edit,
  );
  expect(state().library.draft?.words).toBe('Slower.');
});

it('the words for the week’s list stay with whom they are for, through a reload, until they are on it', async () => {
  const first = await opened();
  await first.done({ kind: 'type list words', words: 'Elbow in.' }, { kind: 'choose player', id: 'cd' });
  expect(first.state().library.listWords).toBe('');
  const { state, done } = await opened();
  await done({ kind: 'choose player', id: 'ab' });
  expect(state().library.listWords).toBe('Elbow in.');
  await done({ kind: 'list phrase', words: 'Elbow in.' });
  expect(state().library.players.find(({ id }) => id === 'ab')?.week).toMatchObject([{ words: 'Elbow in.' }]);
  expect((await opened()).state().library.listWords).toBe('');
});

it('a term report’s words stay begun with their player', async () => {
  const first = await opened();
  await first.done({ kind: 'write term' }, { kind: 'change term', change: { words: 'A steady term.' } });
  await first.done({ kind: 'go', screen: 'play' });
  const { state, done } = await opened();
  await done({ kind: 'write term' });
  expect(state().history.term?.words).toBe('A steady term.');
  await done({ kind: 'printed', what: 'term report' });
  expect(state().library.given).toMatchObject([{ what: 'term report', words: 'A steady term.' }]);
});

it('with a take that is given to another goes the note on it; with one that is deleted it is deleted', async () => {
  const { state, done } = await opened();
  await done(...openNote, words('Low left hand.'), { kind: 'go', screen: 'review' });
  await done(
    { kind: 'give', what: 'take', id: take.id, playerId: 'cd' },
    { kind: 'choose player', id: 'cd' },
  );
  expect(state().library.begun).toMatchObject([
    { playerId: 'cd', draft: { student: 'C. D.', words: 'Low left hand.' } },
  ]);
  vi.stubGlobal('window', { confirm: () => true });
  await done({ kind: 'delete take', id: take.id });
  vi.unstubAllGlobals();
  expect(await store.all('notes')).toEqual([]);
});

it('what is thrown away is written no more, and gone', async () => {
  const { state, done } = await opened();
  await done(...openNote, words('No.'));
  await done({ kind: 'drop draft', begun: state().library.begun[0] });
  expect(state().note).toBeNull();
  expect((await opened()).state().library.begun).toEqual([]);
});
