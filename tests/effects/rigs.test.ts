import { BehaviorSubject, Subject } from 'rxjs';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { AudioClick } from '../../src/click/audio-click';
import type { AudioOut } from '../../src/click/web-audio';
import { rigEffects } from '../../src/effects/rigs';
import type { MidiGateway, MidiStatus } from '../../src/midi/types';
import type { RawMessage } from '../../src/midi/types';
import { firstState } from '../../src/state/state';
import { memoryStore } from '../../src/sessions/memory-store';
import type { RawHit } from '../../src/stroke';
import { contextFrom } from './context';

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

const MIDI: MidiStatus = { kind: 'on', inputs: [{ id: '1', name: 'Pad', connected: true }], outputs: [] };
const hit: RawHit = { atMs: 1000, port: 'Pad', channel: 10, note: 38, velocity: 90 };

/** A player on Rig, whose store answers so late. */
function playerOn(kept: ReturnType<typeof memoryStore>, lateMs: { all?: number; place?: number }) {
  const late = <T>(ms: number | undefined, work: () => Promise<T>): Promise<T> =>
    new Promise<void>((end) => setTimeout(end, ms ?? 0)).then(work);
  const store = {
    ...kept,
    all: ((name: 'rigs') => late(lateMs.all, () => kept.all(name))) as typeof kept.all,
    place: ((name: 'rigs', one: never) =>
      late(lateMs.place, () => kept.place(name, one))) as typeof kept.place,
  };
  const early = memoryStore();
  let isOpen = false;
  // Before the library is open, one that lasts as long as the page.
  const context = contextFrom(
    { ...firstState, screen: 'rig', rigging: { ...firstState.rigging, waiting: [] } },
    () => (isOpen ? store : early),
  );
  const { state, dispatch, works } = context;
  dispatch({ kind: 'midi', status: MIDI });
  const midi: MidiGateway = {
    status$: new BehaviorSubject(MIDI),
    hits$: new Subject<RawHit>(),
    messages$: new Subject<RawMessage>(),
    connect: () => Promise.resolve(),
    send: () => undefined,
  };
  const rigs = rigEffects(context, midi, {} as AudioClick, {} as AudioOut);
  context.listen([rigs]);
  return {
    dispatch,
    open(): Promise<void> {
      isOpen = true;
      return rigs.open();
    },
    strike: () => dispatch({ kind: 'struck', hit, newId: crypto.randomUUID() }),
    now: state,
    async settle() {
      await vi.advanceTimersByTimeAsync(500);
      await Promise.all(works);
    },
  };
}

const named = async (kept: ReturnType<typeof memoryStore>): Promise<readonly (string | undefined)[]> =>
  (await kept.all('rigs')).map(({ rig }) => rig.name);

it('a surface that is struck before the library is open is in the rig, in the list and kept', async () => {
  const kept = memoryStore();
  const player = playerOn(kept, { all: 50 });
  player.strike();
  const opening = player.open();
  await player.settle();
  await opening;
  expect(player.now().rig?.surfaces.map(({ name }) => name)).toEqual(['Snare']);
  expect(player.now().rigging.rigs.map(({ name }) => name)).toEqual(['Pad']);
  await player.settle();
  expect(await named(kept)).toEqual(['Pad']);
  expect(await kept.kept('rig')).toMatchObject({ name: 'Pad' });
});

it('a strike before the library is open takes the place of no rig that is kept there', async () => {
  const kept = memoryStore();
  const before = playerOn(kept, {});
  await Promise.all([before.open(), before.settle()]);
  before.strike();
  before.dispatch({ kind: 'name rig', name: 'Attic', newId: 'attic' });
  await before.settle();
  expect(await named(kept)).toEqual(['Attic']);

  const player = playerOn(kept, { all: 50 });
  player.strike();
  const opening = player.open();
  await player.settle();
  await opening;
  expect(player.now().rig?.name).toBe('Attic');
  expect(await named(kept)).toEqual(['Attic']);
});

it('a rig that is deleted while it is still being kept stays deleted', async () => {
  const kept = memoryStore();
  const player = playerOn(kept, { place: 100 });
  await Promise.all([player.open(), player.settle()]);
  player.strike();
  const id = player.now().rig?.id ?? '';
  player.dispatch({ kind: 'rig deleted', id });
  await player.settle();
  expect(player.now().rig).toBeNull();
  expect(await named(kept)).toEqual([]);
});

it('where the library can’t be read the strikes before it count all the same', async () => {
  const kept = memoryStore();
  const player = playerOn({ ...kept, all: () => Promise.reject(new Error('not read')) }, {});
  player.strike();
  const opening = player.open();
  const failed = expect(opening).rejects.toThrow('not read');
  await player.settle();
  await failed;
  expect(player.now().rig?.surfaces.map(({ name }) => name)).toEqual(['Snare']);
});
