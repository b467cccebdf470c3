import { beforeEach, describe, expect, it, vi } from 'vitest';
import { fileEffects } from '../../src/effects/files';
import { libraryEffects } from '../../src/effects/library';
import { sheetEffects } from '../../src/effects/sheets';
import { takeEffects } from '../../src/effects/takes';
import { unkeptEffects } from '../../src/effects/unkept';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import { newPlayer } from '../../src/sessions/player';
import { exercisesOf } from '../../src/sessions/week/exercises';
import { readWeekSheet, type WeekSheet } from '../../src/sessions/week-sheet';
import type { Action } from '../../src/state/actions';
import { planOf } from '../../src/state/selectors/run';
import { firstState } from '../../src/state/state';
import { contextFrom } from './context';

const saved = vi.hoisted((): { name: string; text: string }[] => []);
vi.mock(import('../../src/effects/save-file'), () => ({
  saveFile: (name: string, content: string | Blob) => void saved.push({ name, text: String(content) }),
}));

const NOW = '2026-03-02T18:00:00.000Z';
const walk = phraseNamed('Single paradiddle, accent walk');
const flams = phraseNamed('Flam accent');

async function pageOf(names: readonly string[]) {
  const store = memoryStore();
  for (const { id } of await store.all('players')) await store.remove('players', id);
  for (const name of names) await store.place('players', newPlayer(`${name} here`, name, NOW));
  const context = contextFrom({ ...firstState, phrase: walk }, () => store);
  const library = libraryEffects(context, () => sheets);
  const { refresh } = library;
  const sheets = sheetEffects(context, refresh);
  const takes = takeEffects(context, refresh);
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
  context.listen([library, sheets, takes, files]);
  await refresh();
  const done = async (...actions: readonly Action[]): Promise<void> => {
    for (const action of actions) {
      context.dispatch(action);
      await Promise.all(context.works);
    }
  };
  return { ...context, done, kept: store };
}

beforeEach(() => {
  saved.length = 0;
});
const last = (): { name: string; text: string } => saved[saved.length - 1];
const fileOf = ({ name, text }: { name: string; text: string }): File => new File([text], name);

/** A teacher writes a sheet of two exercises for A. B. */
async function written() {
  const teacher = await pageOf(['A. B.', 'C. D.']);
  await teacher.done(
    { kind: 'choose player', id: 'A. B. here' },
    { kind: 'new sheet', id: 'week-9', dateMs: Date.parse(NOW) },
    { kind: 'change sheet', change: { words: 'Low taps.' } },
    { kind: 'phrase', name: 'Flam accent' },
    { kind: 'tempo', bpm: 60 },
    { kind: 'add exercise' },
    { kind: 'exercise minutes', minutes: 5 },
    { kind: 'exercise before', words: 'Then the flams.' },
    { kind: 'change sheet', change: { words: 'Graces low.' } },
    { kind: 'export sheet' },
  );
  return { teacher, sheet: readWeekSheet(last().text), file: last() };
}

describe('a sheet of several exercises', () => {
  it('is written one by one, its exercises moved and taken off', async () => {
    const { teacher, sheet } = await written();
    const shown = (of: WeekSheet | null) =>
      of === null
        ? []
        : exercisesOf(of).map(({ phrase, bpm, words, minutes, before }) => [
            phrase.title,
            bpm,
            words,
            minutes,
            before,
          ]);
    expect(shown(sheet)).toEqual([
      ['Single paradiddle, accent walk', 84, 'Low taps.', undefined, undefined],
      ['Flam accent', 60, 'Graces low.', 5, 'Then the flams.'],
    ]);
    await teacher.done({ kind: 'exercise up', index: 1 }, { kind: 'exercise before', words: '' });
    expect(shown(teacher.state().library.draft)[0]).toEqual(['Flam accent', 60, 'Graces low.', 5, undefined]);
    await teacher.done({ kind: 'remove exercise', index: 0 });
    expect(teacher.state().library.draft?.version).toBe(1);
    for (let more = 0; more < 9; more += 1) await teacher.done({ kind: 'add exercise' });
    expect(shown(teacher.state().library.draft)).toHaveLength(6);
  });

  it('is played in turn by the clock of Today, each take to the sheet, and all go back in one file', async () => {
    const { teacher, file } = await written();
    const student = await pageOf(['Me']);
    const { done, state, kept } = student;
    await done({ kind: 'add files', files: [fileOf(file)] });
    const [{ sheet }] = state().library.sheets;
    const plan = [0, 1].map((index) => ({
      kind: 'week' as const,
      minutes: 5,
      title: '',
      why: '',
      opening: { kind: 'sheet' as const, sheet, index },
    }));
    await done({ kind: 'play sheet', sheet });
    for (const [index, bpm] of [84, 60].entries()) {
      if (index === 1) await done({ kind: 'start clock', plan, dateMs: 0 }, { kind: 'move on', dateMs: 1 });
      expect([state().phrase.title, state().bpm]).toEqual([index === 0 ? walk.title : flams.title, bpm]);
      const { take } = modelTake({ phrase: index === 0 ? walk : flams, bpm, seed: 5, cycles: 8 });
      const opening = planOf(state(), take.rig, { id: `t${index}`, recordedAt: NOW });
      expect(opening.sheetId).toBe('week-9');
      await kept.put({ ...opening, downbeatMs: take.downbeatMs, hits: take.hits });
    }
    await done({ kind: 'library', change: { takes: await kept.list({ playerId: 'Me here' }) } });
    await done({ kind: 'send back', id: 'week-9' });
    expect(last().name).toMatch(/^back-M-.*\.takes\.json$/);

    // C. D. has the turn when it comes back.
    await teacher.done(
      { kind: 'choose player', id: 'C. D. here' },
      { kind: 'add files', files: [fileOf(last())] },
    );
    expect((await teacher.kept.list({ playerId: 'A. B. here' })).map(({ id }) => id).sort()).toEqual([
      't0',
      't1',
    ]);
    expect(teacher.state().library.files).toHaveLength(2);
    expect(teacher.state().reviewed).toBeNull();
    await teacher.done({ kind: 'choose player', id: 'A. B. here' });
    const [{ takes, exercises }] = teacher.state().library.sheets;
    expect([takes, exercises.map((one) => one.takes)]).toEqual([2, [1, 1]]);
    expect(exercises.map(({ outcomes }) => outcomes[0].outcome)).toEqual(['met', 'met']);
  });

  it('a file of takes with one that doesn’t read gives the others and says which', async () => {
    const { done, state } = await pageOf(['Me']);
    const { take } = modelTake({ phrase: walk, bpm: 84, seed: 5, cycles: 2 });
    const text = JSON.stringify({
      format: 'evenhand-takes',
      version: 1,
      savedAt: NOW,
      takes: [
        { ...take, id: 'good', playerId: 'Me here' },
        { ...take, bad: true, hits: [] },
      ],
    });
    await done({ kind: 'add files', files: [new File([text], 'back.takes.json')] });
    expect(state().library.files).toMatchObject([
      { added: true },
      { added: false, words: 'takes[1].hits must have at least 2 hits to be a take, got 0' },
    ]);
  });
});
