import { beforeEach, describe, expect, it, vi } from 'vitest';
import { libraryEffects } from '../../src/effects/library';
import { phraseNamed } from '../../src/exercises/phrase';
import { modelTake } from '../../src/model/model-player';
import { memoryStore } from '../../src/sessions/memory-store';
import { deletedAt, groupsFrom, newPlayer } from '../../src/sessions/player';
import { calledPlayers } from '../../src/sessions/player-code';
import type { Action } from '../../src/state/actions';
import { firstState } from '../../src/state/state';
import { contextFrom } from './context';

const NOW = '2026-03-02T18:00:00.000Z';
const { take } = modelTake({
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  seed: 5,
  cycles: 2,
});

/** A page over a store; several may stand over one, as one does after another. */
async function pageOver(store: ReturnType<typeof memoryStore>) {
  const context = contextFrom(firstState, () => store);
  const library = libraryEffects(context, () => ({ shown: () => Promise.resolve([]) }));
  context.listen([library]);
  await library.open();
  const done = async (...actions: readonly Action[]): Promise<void> => {
    for (const action of actions) {
      context.dispatch(action);
      await Promise.all(context.works);
    }
  };
  const called = (): readonly string[] =>
    calledPlayers(context.state().library.players).map(({ name }) => name);
  return { ...context, done, called };
}

async function studio(names: readonly string[]) {
  const store = memoryStore();
  for (const { id } of await store.all('players')) await store.remove('players', id);
  for (const name of names) await store.place('players', newPlayer(name, name, NOW));
  return { ...(await pageOver(store)), kept: store };
}

beforeEach(() => vi.stubGlobal('navigator', {}));

describe('players', () => {
  it('stand in a person’s order, not a machine’s', async () => {
    const { called } = await studio(['Student 10', 'Student 2', 'student 1', 'Åse', 'Zed']);
    expect(called()).toEqual(['Åse', 'student 1', 'Student 2', 'Student 10', 'Zed']);
  });

  it('that are added leave the turn where it is, and have a short code', async () => {
    const { state, done } = await studio(['Kim Person']);
    await done({ kind: 'new player', name: 'Kim Person' });
    expect(state().library.playerId).toBe('Kim Person');
    expect(state().library.players.map(({ code }) => code)).toEqual([undefined, 'KP2']);
  });

  it('of one name are told apart wherever they are chosen', async () => {
    const { done, called } = await studio(['Kim Person', 'Lee']);
    await done({ kind: 'new player', name: 'kim person' });
    expect(called()).toEqual(['Kim Person (KP)', 'kim person (KP2)', 'Lee']);
  });

  it('who are called otherwise have the code of their new name', async () => {
    const { state, done } = await studio(['Kim', 'Lee']);
    await done({ kind: 'change player', id: 'Kim', change: { name: 'Lo', groups: ['Tuesday'] } });
    expect(state().library.players).toMatchObject([{ name: 'Lee' }, { code: 'L2', groups: ['Tuesday'] }]);
  });

  it('are put in groups as they are typed', () => {
    expect(groupsFrom(' Tuesday,, North  school ,Tuesday')).toEqual(['Tuesday', 'North school']);
    expect(groupsFrom(' ')).toEqual([]);
  });
});

describe('the archive', () => {
  it('keeps all that is theirs, out of the lists and without the turn, until they are brought back', async () => {
    const { kept: store, state, done, called } = await studio(['Kim', 'Lee']);
    await store.put({ ...take, playerId: 'Kim' });
    await done({ kind: 'choose player', id: 'Kim' }, { kind: 'archive player', id: 'Kim' });
    expect([called(), state().library.playerId]).toEqual([['Lee'], 'Lee']);
    expect(state().message).toBe('Kim is in the archive, with all that is theirs.');
    expect(await store.count('Kim')).toBe(1);
    await done({ kind: 'bring back', id: 'Kim' }, { kind: 'choose player', id: 'Kim' });
    expect([called(), state().library.takes.length]).toEqual([['Kim', 'Lee'], 1]);
    expect(state().library.players[0]).not.toHaveProperty('archivedAt');
  });

  it('doesn’t take the last one: somebody has to have the turn', async () => {
    const { done, called } = await studio(['Kim']);
    await done({ kind: 'archive player', id: 'Kim' });
    expect(called()).toEqual(['Kim']);
  });

  it('deletes nobody unless a time is said, and then whose time is over', async () => {
    const { kept: store, done } = await studio(['Kim', 'Lee', 'Mo']);
    const ago = (days: number): string => new Date(Date.now() - days * 86_400_000).toISOString();
    await store.place('players', { ...newPlayer('Kim', 'Kim', NOW), archivedAt: ago(400) });
    await store.place('players', { ...newPlayer('Lee', 'Lee', NOW), archivedAt: ago(300) });
    await store.put({ ...take, playerId: 'Kim' });
    const before = await pageOver(store);
    expect(before.state().library.players).toHaveLength(3);
    await done({ kind: 'archive keeps', months: 12 });
    const { state } = await pageOver(store);
    expect(state().library.players.map(({ name }) => name)).toEqual(['Lee', 'Mo']);
    expect(state().message).toBe('1 archived player deleted, as Library says.');
    expect([await store.count('Kim'), state().library.archiveMonths]).toEqual([0, 12]);
  });

  it('says the day', () => {
    const archived = { ...newPlayer('Kim', 'Kim', NOW), archivedAt: '2026-03-02T18:00:00.000Z' };
    expect(deletedAt(archived, 6)?.toISOString()).toBe('2026-09-02T18:00:00.000Z');
    expect([deletedAt(archived, null), deletedAt(newPlayer('a', 'A', NOW), 6)]).toEqual([
      undefined,
      undefined,
    ]);
  });
});
