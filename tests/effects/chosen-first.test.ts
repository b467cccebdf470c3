import { beforeEach, expect, it, vi } from 'vitest';
import { libraryEffects } from '../../src/effects/library';
import { noteEffects } from '../../src/effects/notes';
import { sheetEffects } from '../../src/effects/sheets';
import { takeEffects } from '../../src/effects/takes';
import { writtenEffects } from '../../src/effects/written';
import { phraseNamed } from '../../src/exercises/phrase';
import { choiceOf } from '../../src/grading/chosen';
import { modelTake } from '../../src/model/model-player';
import type { BrowserStore } from '../../src/sessions/browser-store';
import { memoryStore } from '../../src/sessions/memory-store';
import { newPlayer } from '../../src/sessions/player';
import { readTake, writeTake } from '../../src/sessions/take';
import type { Action } from '../../src/state/actions';
import { remedyFor } from '../../src/state/selectors/review';
import { firstState } from '../../src/state/state';
import { gradeTake } from '../../src/take/grade-take';
import { contextFrom } from './context';

vi.mock('../../src/effects/save-file', () => ({
  saveFile: () => undefined,
  fileNameOf: (name: string) => name,
}));

const NOW = '2026-03-02T18:00:00.000Z';
const { take } = modelTake({
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  seed: 21,
  cycles: 8,
  timingSdMs: 4,
  levelSdDb: 0.6,
  surfaces: 2,
  faults: [
    { kind: 'leak-before', hand: 'L', db: 7, variation: 'accent on 4' },
    { kind: 'late', hand: 'L', ms: 16 },
  ],
});
const report = gradeTake(take);
const lag = choiceOf(report.others.find(({ measure }) => measure === 'lag')!);

let store: BrowserStore;
beforeEach(async () => {
  store = memoryStore();
  for (const { id } of await store.all('players')) await store.remove('players', id);
  await store.place('players', newPlayer('ab', 'A. B.', NOW));
  await store.place('players', newPlayer('cd', 'C. D.', NOW));
  await store.keep('player', 'ab');
  await store.put({ ...take, playerId: 'ab' });
});

async function opened() {
  const context = contextFrom({ ...firstState }, () => store);
  const library = libraryEffects(context, () => sheets);
  const sheets = sheetEffects(context, library.refresh);
  const takes = takeEffects(context, library.refresh);
  context.listen([
    library,
    sheets,
    takes,
    noteEffects(context),
    writtenEffects(context, library.refresh, takes.show),
  ]);
  await library.refresh();
  const done = async (...actions: readonly Action[]): Promise<void> => {
    for (const action of actions) {
      context.dispatch(action);
      for (let before = -1; before < context.works.length;) {
        before = context.works.length;
        await Promise.all(context.works);
      }
    }
  };
  return { ...context, done };
}

const open: Action = { kind: 'open take', id: take.id };

it('what a teacher has come first is kept with the take, leads after a reload, and can be taken back', async () => {
  const first = await opened();
  await first.done(open, { kind: 'choose first', choice: lag });
  expect((await store.get(take.id))?.first).toEqual(lag);

  const { state, done } = await opened();
  await done(open);
  expect(remedyFor(state().reviewed!)?.evidence.measure).toBe('lag');
  // the report is the take's own all the same
  expect(JSON.stringify(state().reviewed?.report)).toBe(JSON.stringify(report));
  expect((await store.record(take.id))?.sentence).toBe(report.sentence);

  await done({ kind: 'choose first', choice: null });
  expect(await store.get(take.id)).toEqual({ ...take, playerId: 'ab' });
  expect(remedyFor(state().reviewed!)?.evidence.measure).toBe('leakBefore');
});

it('a take that was given to another player stays theirs', async () => {
  await store.give([take.id], 'cd');
  const { done } = await opened();
  await done(open, { kind: 'choose first', choice: lag });
  expect((await store.get(take.id))?.first).toEqual(lag);
  expect((await store.record(take.id))?.playerId).toBe('cd');
});

it('of a take that is not kept it is chosen on the page alone', async () => {
  const { state, done, dispatch } = await opened();
  const other = { ...take, id: 'elsewhere' };
  dispatch({ kind: 'reviewed', take: other, report: gradeTake(other) });
  await done({ kind: 'choose first', choice: lag });
  expect(state().reviewed?.take.first).toEqual(lag);
  expect(await store.record('elsewhere')).toBeUndefined();
});

it('goes out and comes in with the take’s file', () => {
  expect(readTake(writeTake({ ...take, first: lag })).first).toEqual(lag);
  expect(readTake(writeTake(take))).not.toHaveProperty('first');
  expect(() => readTake(writeTake(take).replace('"hits"', '"first": {"measure": ""}, "hits"'))).toThrow(
    'first.measure must not be empty',
  );
});

it('a target that was proposed before goes with what leads; a teacher’s own stays', async () => {
  const { state, done } = await opened();
  const note: Action = { kind: 'write note' };
  const words: Action = { kind: 'change note', change: { words: 'Low sticks.' } };
  await done(open, note, words);
  const leading = state().note!.text.target;
  expect(leading).toMatch(/leak before in accent on 4/);
  await done({ kind: 'close note' }, { kind: 'choose first', choice: lag }, note);
  expect(state().note?.text.words).toBe('Low sticks.');
  expect(state().note?.text.target).not.toBe(leading);
  expect(state().note?.text.target).toMatch(/lag/);

  await done({ kind: 'change note', change: { target: 'Slowly, every day.' } }, { kind: 'close note' });
  await done({ kind: 'choose first', choice: null }, note);
  expect(state().note?.text.target).toBe('Slowly, every day.');
});
