import { beforeEach, describe, expect, it } from 'vitest';
import { reviewPage } from '../../src/components/review/review-page';
import { filingEffects } from '../../src/effects/filing';
import { libraryEffects } from '../../src/effects/library';
import { dayOfPlay, playEffects } from '../../src/effects/play';
import { sheetEffects } from '../../src/effects/sheets';
import { takeEffects } from '../../src/effects/takes';
import { unkeptEffects } from '../../src/effects/unkept';
import { phraseNamed } from '../../src/exercises/phrase';
import { weeksPlayed } from '../../src/insight/history/minutes';
import { playedOf } from '../../src/insight/history/played';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import { newPlayer } from '../../src/sessions/player';
import { summaryOf } from '../../src/sessions/take-record';
import { TEACHER } from '../../src/sessions/teacher';
import type { Take } from '../../src/sessions/types';
import type { Action } from '../../src/state/actions';
import { planOf } from '../../src/state/selectors/run';
import { firstState } from '../../src/state/state';
import { contextFrom } from './context';

const NOW = '2026-03-02T18:00:00.000Z';
const phrase = phraseNamed('Single paradiddle, accent walk');
const { take: model } = modelTake({ phrase, bpm: 84, seed: 5, cycles: 2 });

/** A lesson of two students; whatever is played comes to these hits. */
async function lesson() {
  const kept = memoryStore();
  for (const { id } of await kept.all('players')) await kept.remove('players', id);
  await kept.place('players', newPlayer('ab', 'A. B.', NOW));
  await kept.place('players', newPlayer('cd', 'C. D.', NOW));
  await kept.keep('player', 'ab');
  const store = { ...kept, lasts: true };
  const context = contextFrom({ ...firstState, phrase, screen: 'play' }, () => store);
  const { state, dispatch, works } = context;
  const library = libraryEffects(context, () => sheets);
  const { refresh, turnTo } = library;
  const sheets = sheetEffects(context, refresh);
  const takes = takeEffects(context, refresh);
  const filing = filingEffects(context, { refresh, turnTo, show: takes.show });
  let isRunning = false;
  let played = 0;
  const play = playEffects(context, {
    running: {
      isRunning: () => isRunning,
      start() {
        isRunning = true;
      },
      note: () => undefined,
      async stop() {
        isRunning = false;
        played += 1;
        const plan = planOf(state(), model.rig, { id: `t${played}`, recordedAt: NOW, cold: true });
        const take: Take = { ...plan, downbeatMs: model.downbeatMs, hits: model.hits };
        await kept.put(take);
        dispatch({ kind: 'ended', strokes: true });
        return { take, unkept: null };
      },
    },
    takes,
    unkept: unkeptEffects(context, takes.settle, () => isRunning),
    day: dayOfPlay(context),
    list: refresh,
  });
  context.listen([library, sheets, takes, filing, play]);
  await refresh();
  const done = async (...actions: readonly Action[]): Promise<void> => {
    for (const action of actions) {
      dispatch(action);
      await Promise.all(works);
    }
  };
  return { ...context, done, kept };
}

let page: Awaited<ReturnType<typeof lesson>>;
beforeEach(async () => {
  page = await lesson();
});
const teacherPlays: Action = { kind: 'teacher plays', on: true };
const idsOf = (takes: readonly { readonly id: string }[]): readonly string[] => takes.map(({ id }) => id);

describe('a teacher’s take', () => {
  it('is one take and no more: the next is the student’s again', async () => {
    const { state, done, kept } = page;
    await done(teacherPlays, { kind: 'start' }, { kind: 'stop' });
    expect(state().teacherPlays).toBe(false);
    expect(state().last?.take).toMatchObject({ id: 't1', teacher: true, player: '' });
    await done({ kind: 'start' }, { kind: 'stop' });
    expect(state().last?.take).toMatchObject({ id: 't2', player: 'A. B.', playerId: 'ab', cold: true });
    expect(state().last?.take).not.toHaveProperty('teacher');
    expect(Object.fromEntries((await kept.list()).map(({ id, playerId }) => [id, playerId]))).toEqual({
      t1: TEACHER,
      t2: 'ab',
    });
  });

  it('is in no player’s list, and so in nobody’s history, minutes, ceilings or week', async () => {
    const { state, done } = page;
    await done(teacherPlays, { kind: 'start' }, { kind: 'stop' }, { kind: 'start' }, { kind: 'stop' });
    expect(idsOf(state().library.takes)).toEqual(['t2']);
    expect(idsOf(state().library.teacherTakes)).toEqual(['t1']);
    const weeks = weeksPlayed(playedOf(state().library.takes, 0));
    expect(weeks.map(({ minutes }) => minutes)).toEqual([summaryOf(model).minutes]);
  });

  it('says nothing of cold, of a week sheet or a remedy, and moves no climb and no guess', async () => {
    const { state, done } = page;
    const guesses = { ...state().reviewing.guesses, on: true };
    await done({ kind: 'guesses kept', guesses }, { kind: 'begin climb', today: '2026-03-02' });
    const before = state().climb;
    await done(teacherPlays, { kind: 'start' }, { kind: 'stop' });
    const take = state().last?.take;
    expect(take?.id).toBe('t1');
    for (const key of ['cold', 'sheetId', 'remedy', 'playerId']) expect(take).not.toHaveProperty(key);
    expect(take?.notes).toBe('');
    expect(state().climb?.takes).toEqual(before?.takes);
    expect(state().reviewing.guess.kind).toBe('none');
  });

  it('is offered beside any student’s take of its phrase, and no other student’s take is', async () => {
    const { state, done } = page;
    await done({ kind: 'start' }, { kind: 'stop' });
    await done(teacherPlays, { kind: 'start' }, { kind: 'stop' });
    await done({ kind: 'choose player', id: 'cd' }, { kind: 'start' }, { kind: 'stop' });
    const beside = offeredIn(state());
    expect(beside).toContain('t2');
    expect(beside).not.toContain('t1');
    await done({ kind: 'set beside', id: 't2' });
    expect(state().reviewing.beside?.take.teacher).toBe(true);
  });

  it('can be said afterwards, and taken back', async () => {
    const { state, done } = page;
    await done({ kind: 'start' }, { kind: 'stop' });
    await done({ kind: 'give', what: 'take', id: 't1', playerId: TEACHER });
    expect(state().message).toBe('The take is the teacher’s now.');
    expect([idsOf(state().library.takes), idsOf(state().library.teacherTakes)]).toEqual([[], ['t1']]);
    expect(state().reviewed?.take.id).toBe('t1');
    await done({ kind: 'give', what: 'take', id: 't1', playerId: 'ab' });
    expect(idsOf(state().library.takes)).toEqual(['t1']);
  });

  it('is off again where another’s turn comes, and stays on where no stroke came', async () => {
    const { state, dispatch, done } = page;
    await done(teacherPlays);
    dispatch({ kind: 'ended', strokes: false });
    expect(state().teacherPlays).toBe(true);
    await done({ kind: 'choose player', id: 'cd' });
    expect(state().teacherPlays).toBe(false);
  });
});

/** Ids of what Review offers to be set beside. */
function offeredIn(state: Parameters<typeof reviewPage>[0]): readonly string[] {
  const { values } = reviewPage(state);
  const isOffered = (value: unknown): value is readonly { readonly id: string }[] =>
    Array.isArray(value) && value.some((one) => (one as { id?: unknown }).id === 'steady-model');
  return values.filter(isOffered).flatMap(idsOf);
}
