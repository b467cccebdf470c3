import { beforeEach, expect, it, vi } from 'vitest';
import { libraryEffects } from '../../src/effects/library';
import { otherWindowsEffects, type LibraryNews } from '../../src/effects/other-windows';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import { tellingStore } from '../../src/sessions/telling-store';
import { firstState } from '../../src/state/state';
import { contextFrom } from './context';

const { take, grid } = modelTake({
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  seed: 5,
  cycles: 2,
});

/** The air between windows: each hears what the others tell. */
function air() {
  const hearers = new Map<number, () => void>();
  let told = 0;
  return {
    told: () => told,
    join(): LibraryNews {
      const me = hearers.size;
      hearers.set(me, () => undefined);
      return {
        tell() {
          told += 1;
          for (const [who, hear] of hearers) if (who !== me) hear();
        },
        listen: (hear) => void hearers.set(me, hear),
      };
    },
  };
}

/** Two windows over one library. */
async function twoWindows() {
  const shared = memoryStore();
  const between = air();
  const open = async () => {
    const news = between.join();
    const store = tellingStore({ ...shared, lasts: true }, news.tell);
    const context = contextFrom(firstState, () => store);
    const library = libraryEffects(context, () => ({ shown: () => Promise.resolve([]) }));
    const isPlaying = (): boolean => context.state().running !== null;
    context.listen([library, otherWindowsEffects(context, news, isPlaying, library.refresh)]);
    await library.refresh();
    return context;
  };
  return { first: await open(), second: await open(), told: between.told };
}

beforeEach(() => {
  vi.useFakeTimers();
  return () => vi.useRealTimers();
});
const aSecond = (): Promise<unknown> => vi.advanceTimersByTimeAsync(1000);

it('a window shows within a second what another has changed: a player, a take, a deletion', async () => {
  const { first, second } = await twoWindows();
  first.dispatch({ kind: 'new player', name: 'Kim' });
  await aSecond();
  expect(second.state().library.players.map(({ name }) => name)).toContain('Kim');
  const [mine] = second.state().library.players;
  await first.store().put({ ...take, playerId: mine.id });
  await aSecond();
  expect(second.state().library.takes.map(({ id }) => id)).toEqual([take.id]);
  await second.store().delete(take.id);
  await aSecond();
  expect(first.state().library.takes).toEqual([]);
});

it('reading anew tells nobody: the windows come to rest', async () => {
  const { first, told } = await twoWindows();
  await first.store().put(take);
  await aSecond();
  await aSecond();
  expect(told()).toBe(1);
});

it('while a take is played nothing is read; what came meanwhile is shown after it', async () => {
  const { first, second } = await twoWindows();
  second.dispatch({ kind: 'started', running: { grid, takeId: 't', bare: [] } });
  first.dispatch({ kind: 'new player', name: 'Kim' });
  await aSecond();
  expect(second.state().library.players).toHaveLength(1);
  second.dispatch({ kind: 'ended', strokes: true });
  await aSecond();
  expect(second.state().library.players).toHaveLength(2);
});
