import { beforeEach, describe, expect, it } from 'vitest';
import { reviewPage } from '../../src/components/review/review-page';
import { libraryEffects } from '../../src/effects/library';
import { takeEffects } from '../../src/effects/takes';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import { newPlayer } from '../../src/sessions/player';
import type { Take } from '../../src/sessions/types';
import type { Action } from '../../src/state/actions';
import { firstState } from '../../src/state/state';
import { OF_ALL, OF_NOBODY } from '../../src/state/takes';
import { contextFrom } from './context';

const NOW = '2026-03-02T18:00:00.000Z';
const { take } = modelTake({
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  seed: 5,
  cycles: 2,
});
const played = (id: string, day: number, more: Partial<Take>): Take => ({
  ...take,
  id,
  recordedAt: new Date(Date.UTC(2026, 2, day)).toISOString(),
  ...more,
});

async function studio() {
  const store = memoryStore();
  for (const { id } of await store.all('players')) await store.remove('players', id);
  await store.place('players', newPlayer('ab', 'A. B.', NOW));
  await store.place('players', newPlayer('cd', 'C. D.', NOW));
  await store.keep('player', 'ab');
  for (let day = 1; day <= 60; day += 1) await store.put(played(`ab${day}`, day, { playerId: 'ab' }));
  await store.put(played('cd1', 1, { playerId: 'cd' }));
  await store.put(played('none', 2, {}));
  await store.put(played('shown', 3, { teacher: true }));
  const context = contextFrom(firstState, () => store);
  const library = libraryEffects(context, () => ({ shown: () => Promise.resolve([]) }));
  context.listen([library, takeEffects(context, library.refresh)]);
  await library.refresh();
  const done = async (action: Action): Promise<void> => {
    context.dispatch(action);
    await Promise.all(context.works);
  };
  return { ...context, done };
}

let page: Awaited<ReturnType<typeof studio>>;
beforeEach(async () => {
  page = await studio();
});
const listed = (): readonly string[] => page.state().kept.map(({ id }) => id);

describe('the takes that are listed', () => {
  it('are all of whose turn it is, newest first, and nobody else’s', () => {
    expect(listed()).toHaveLength(60);
    expect(listed().slice(0, 2)).toEqual(['ab60', 'ab59']);
  });

  it('are another’s, the teacher’s, nobody’s or everybody’s where that is asked for', async () => {
    await page.done({ kind: 'list takes', change: { of: 'cd' } });
    expect(listed()).toEqual(['cd1']);
    await page.done({ kind: 'list takes', change: { of: 'teacher' } });
    expect(listed()).toEqual(['shown']);
    await page.done({ kind: 'list takes', change: { of: OF_NOBODY } });
    expect(listed()).toEqual(['none']);
    await page.done({ kind: 'list takes', change: { of: OF_ALL } });
    expect(listed()).toHaveLength(63);
  });

  it('begin at their first page when another list is asked for, and are theirs again with another’s turn', async () => {
    await page.done({ kind: 'list takes', change: { page: 2 } });
    expect(page.state().takesView.page).toBe(2);
    await page.done({ kind: 'list takes', change: { of: 'cd' } });
    expect(page.state().takesView.page).toBe(0);
    await page.done({ kind: 'choose player', id: 'cd' });
    expect(page.state().takesView.of).toBe('');
    expect(listed()).toEqual(['cd1']);
  });
});

describe('Review', () => {
  it('leads to the takes before and after, of whose it is', async () => {
    const ways = (): unknown =>
      reviewPage(page.state()).values.find(
        (value) => typeof value === 'object' && value !== null && 'earlier' in value,
      );
    await page.done({ kind: 'open take', id: 'ab30' });
    expect(ways()).toMatchObject({ earlier: { id: 'ab29' }, later: { id: 'ab31' } });
    await page.done({ kind: 'open take', id: 'ab60' });
    expect(ways()).toMatchObject({ earlier: { id: 'ab59' }, later: null });
    await page.done({ kind: 'open take', id: 'shown' });
    expect(ways()).toEqual({ earlier: null, later: null });
  });

  it('knows each time that a take was opened, the same one again too', async () => {
    await page.done({ kind: 'open take', id: 'ab30' });
    const { opened } = page.state();
    await page.done({ kind: 'open take', id: 'ab30' });
    expect(page.state().opened).toBe(opened + 1);
  });
});
