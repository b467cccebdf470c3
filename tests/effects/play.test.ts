import { describe, expect, it } from 'vitest';
import { dayOfPlay, playEffects } from '../../src/effects/play';
import { takeEffects } from '../../src/effects/takes';
import { unkeptEffects } from '../../src/effects/unkept';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import { firstState } from '../../src/state/state';
import { contextFrom } from './context';

const { take } = modelTake({ phrase: phraseNamed('Single paradiddle, accent walk'), bpm: 84, seed: 5 });
const slow = (): Promise<void> => new Promise((end) => setTimeout(end, 20));

/** A page where a take runs, or has just been played. */
async function pageWith(running: boolean) {
  const kept = memoryStore();
  await kept.put(take);
  const store = { ...kept, lasts: true, put: (one: typeof take) => slow().then(() => kept.put(one)) };
  const context = contextFrom({ ...firstState, screen: 'play' }, () => store);
  const list = (): Promise<void> => Promise.resolve();
  const takes = takeEffects(context, list);
  let isRunning = running;
  const { on } = playEffects(context, {
    running: {
      isRunning: () => isRunning,
      start: () => undefined,
      note: () => undefined,
      stop: () => {
        isRunning = false;
        return Promise.resolve({ take, unkept: null });
      },
    },
    takes,
    unkept: unkeptEffects(context, takes.settle, () => isRunning),
    day: dayOfPlay(context),
    list,
  });
  context.listen([{ on }]);
  return { ...context, kept };
}

it('a note on the last take stays with it, thrown away and put back while the note is still being kept', async () => {
  const { state, dispatch, works, kept } = await pageWith(false);
  dispatch({ kind: 'played', last: { take, sentence: '', kept: true } });
  dispatch({ kind: 'annotate last', text: 'left heavy' });
  dispatch({ kind: 'throw away' });
  await Promise.all(works);
  expect(state().last).toMatchObject({ kept: false, take: { notes: 'left heavy' } });
  expect(await kept.list({ most: 5 })).toEqual([]);

  dispatch({ kind: 'put back' });
  await Promise.all(works);
  expect(await kept.get(take.id)).toMatchObject({ notes: 'left heavy' });
});

describe('a take that ends', () => {
  it('opens in Review', async () => {
    const { state, dispatch, works } = await pageWith(true);
    dispatch({ kind: 'stop' });
    await Promise.all(works);
    expect(state().screen).toBe('review');
    expect(state().reviewed?.take).toBe(take);
  });

  it('and after which one stays in Play is what Review has; thrown away it is gone from there', async () => {
    const { state, dispatch, works } = await pageWith(true);
    dispatch({ kind: 'plan', change: { then: 'stay' } });
    dispatch({ kind: 'stop' });
    await Promise.all(works);
    expect(state().screen).toBe('play');
    expect(state().reviewed?.take).toBe(take);

    dispatch({ kind: 'annotate last', text: 'left heavy' });
    await Promise.all(works);
    expect(state().reviewed?.take.notes).toBe('left heavy');
    dispatch({ kind: 'throw away' });
    await Promise.all(works);
    expect(state().reviewed).toBeNull();
  });

  it('can be thrown away in Review, which leads to Play, where it can be put back', async () => {
    const { state, dispatch, works } = await pageWith(true);
    dispatch({ kind: 'stop' });
    await Promise.all(works);
    dispatch({ kind: 'throw away' });
    await Promise.all(works);
    expect(state()).toMatchObject({ screen: 'play', reviewed: null, last: { kept: false } });
  });

  it('because the player went elsewhere leaves the player there', async () => {
    const { state, dispatch, works } = await pageWith(true);
    dispatch({ kind: 'go', screen: 'library' });
    await Promise.all(works);
    expect(state().screen).toBe('library');
    expect(state().reviewed?.take).toBe(take);
  });
});
