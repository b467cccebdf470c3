import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { fileEffects } from '../../src/effects/files';
import { dayOfPlay, playEffects } from '../../src/effects/play';
import { takeEffects } from '../../src/effects/takes';
import { unkeptEffects } from '../../src/effects/unkept';
import { InputError } from '../../src/errors';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import { writeTake } from '../../src/sessions/take';
import { firstState } from '../../src/state/state';
import { contextFrom } from './context';

const { take } = modelTake({ phrase: phraseNamed('Single paradiddle, accent walk'), bpm: 84, seed: 5 });
const NO_ROOM = 'storage has no room left: download your takes, then delete some';
const page = new EventTarget();
/** Whether whoever leaves the page now is asked first. */
const asks = (): boolean => !page.dispatchEvent(new Event('beforeunload', { cancelable: true }));

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal('window', page);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** A page whose store has no room for takes until `room.left` says so, where a take has just ended. */
async function fullPage() {
  const kept = memoryStore();
  const room = { left: false };
  const playing = { now: false };
  const noRoom = () => Promise.reject(new InputError('storage', NO_ROOM.slice('storage '.length)));
  const store = {
    ...kept,
    lasts: true,
    put: (one: typeof take) => (room.left ? kept.put(one) : noRoom()),
    describe: (...told: Parameters<typeof kept.describe>) => (room.left ? kept.describe(...told) : noRoom()),
  };
  const context = contextFrom({ ...firstState, screen: 'play' }, () => store);
  const takes = takeEffects(context, () => Promise.resolve());
  const unkept = unkeptEffects(context, takes.settle, () => playing.now);
  const play = playEffects(context, {
    running: {
      isRunning: () => true,
      start: () => undefined,
      note: () => undefined,
      stop: () => Promise.resolve({ take, unkept: new Error(NO_ROOM) }),
    },
    takes,
    unkept,
    day: dayOfPlay(context),
    list: () => Promise.resolve(),
  });
  const nobody = { add: () => Promise.resolve() };
  const files = fileEffects(
    context,
    {
      refresh: () => noRoom(),
      takes,
      unkept,
      phrases: nobody,
      rigs: nobody,
      sheets: { keep: () => Promise.resolve() },
      backup: { restore: () => Promise.reject(new Error()) },
    },
    () => Promise.resolve(),
  );
  context.listen([takes, unkept, play, files]);
  const settled = async (): Promise<void> => void (await Promise.allSettled(context.works));
  return { ...context, kept, room, playing, settled };
}

it('a take that could not be kept is reviewed, and held with why until there is room', async () => {
  const { state, dispatch, settled, kept, room } = await fullPage();
  dispatch({ kind: 'stop' });
  await settled();
  expect(state().screen).toBe('review');
  expect(state().unkept).toMatchObject([{ take, why: NO_ROOM, from: 'played', downloaded: false }]);
  dispatch({ kind: 'go', screen: 'rig' });
  await vi.advanceTimersByTimeAsync(20_000);
  await settled();
  expect(state().unkept).toHaveLength(1);

  room.left = true;
  await vi.advanceTimersByTimeAsync(5000);
  await settled();
  expect(state().unkept).toEqual([]);
  expect(await kept.get(take.id)).toEqual(take);
  expect((await kept.list())[0].sentence).not.toBe('');
  expect(state().message).toMatch(/^Kept now: /);
});

it('nothing is written beside a take that runs: one that was held waits for its end', async () => {
  const { state, dispatch, settled, room, playing } = await fullPage();
  dispatch({ kind: 'stop' });
  await settled();
  room.left = true;
  playing.now = true;
  await vi.advanceTimersByTimeAsync(20_000);
  expect(state().unkept).toHaveLength(1);
  playing.now = false;
  await vi.advanceTimersByTimeAsync(5000);
  await settled();
  expect(state().unkept).toEqual([]);
});

it('leaving the page asks first while a take is in memory alone, and not before or after', async () => {
  const { state, dispatch, settled, room } = await fullPage();
  expect(asks()).toBe(false);
  dispatch({ kind: 'stop' });
  await settled();
  expect(asks()).toBe(true);
  room.left = true;
  await vi.advanceTimersByTimeAsync(5000);
  await settled();
  expect(state().unkept).toEqual([]);
  expect(asks()).toBe(false);
});

it('a note on a take that is not kept stays with it, and thrown away it is held no more', async () => {
  const { state, dispatch, settled } = await fullPage();
  dispatch({ kind: 'stop' });
  await settled();
  dispatch({ kind: 'annotate last', text: 'left heavy' });
  await settled();
  expect(state().unkept).toMatchObject([{ take: { id: take.id, notes: 'left heavy' } }]);
  dispatch({ kind: 'throw away' });
  await settled();
  expect(state().unkept).toEqual([]);
  expect(asks()).toBe(false);
});

it('a dropped take is reviewed from memory where nothing can be kept or read, and its file is no reason to ask', async () => {
  const { state, dispatch, settled } = await fullPage();
  const file = new File([writeTake(take)], 'a.take.json');
  dispatch({ kind: 'add files', files: [file] });
  await settled();
  expect(state().screen).toBe('review');
  expect(state().reviewed?.take.id).toBe(take.id);
  expect(state().unkept).toMatchObject([{ why: NO_ROOM, from: 'file' }]);
  expect(asks()).toBe(false);
});
