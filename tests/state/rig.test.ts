import { describe, expect, it } from 'vitest';
import type { MidiStatus } from '../../src/midi/types';
import type { Action } from '../../src/state/actions';
import { firstState, type State } from '../../src/state/state';
import { portsCounted, rigInUse } from '../../src/state/selectors/input';
import { reduce } from '../../src/state/reducer';
import { rigFileFrom } from '../../src/sessions/rig-file';
import type { RawHit } from '../../src/stroke';

// Notes: General MIDI level 1 percussion key map.

const on = (...ports: readonly (readonly [id: string, name: string])[]): MidiStatus => ({
  kind: 'on',
  inputs: ports.map(([id, name]) => ({ id, name, connected: true })),
  outputs: [],
});

/** A player at the Rig screen, with a clock that ticks ten times a second. */
function player(ports: MidiStatus = on(['1', 'Right'], ['2', 'Left'])) {
  let state: State = reduce(reduce(firstState, { kind: 'midi', status: ports }), {
    kind: 'go',
    screen: 'rig',
  });
  let atMs = 1000;
  const say = (action: Action): void => {
    state = reduce(state, action);
  };
  const wait = (ms: number): void => {
    for (const until = atMs + ms; atMs < until;) {
      atMs += 100;
      say({ kind: 'rig time', atMs });
    }
  };
  const strike = (port: string, velocity = 90, note = 38): void => {
    const hit: RawHit = { atMs, port, channel: 10, note, velocity };
    say({ kind: 'struck', hit, newId: 'one' });
  };
  return {
    now: () => state,
    say,
    wait,
    strike,
    status(status: MidiStatus) {
      state = reduce(state, { kind: 'midi', status });
    },
    heights(port: string, note = 38) {
      for (const velocity of [25, 60, 112]) {
        for (let stroke = 0; stroke < 8; stroke += 1) {
          wait(500);
          strike(port, velocity + (stroke % 3), note);
        }
        wait(1100);
      }
    },
    elapsedMs: () => atMs - 1000,
  };
}

/** Both surfaces, the hands, and the heights of both. */
function taught() {
  const at = player();
  at.strike('Right');
  at.wait(600);
  at.strike('Left');
  at.wait(4200);
  at.strike('Right');
  at.wait(400);
  at.strike('Left');
  at.wait(600);
  at.heights('Right');
  at.heights('Left');
  return at;
}

describe('the two-minute path, by strikes alone', () => {
  it('two pads on two ports with one note are two surfaces, each its hand’s, with heights', () => {
    const at = taught();
    const { rig, rigging } = at.now();
    expect(rig?.surfaces.map(({ port, notes, hand }) => [port, notes, hand])).toEqual([
      ['Right', [38], 'R'],
      ['Left', [38], 'L'],
    ]);
    expect(rig?.surfaces[0].heights?.R?.full.n).toBe(8);
    expect(rig?.surfaces[1].heights?.L?.low.n).toBe(8);
    expect(rigging.task.kind).toBe('rest');
    expect(at.elapsedMs()).toBeLessThan(120_000);
    expect(rigFileFrom({ format: 'evenhand-rig', version: 1, rig }).rig.name).toBe('Right');
  });

  it('then three strikes on a surface make it start and stop, and Play opens; hits of both ports count there', () => {
    const at = taught();
    for (let strikes = 0; strikes < 3; strikes += 1) {
      at.strike('Left');
      at.wait(200);
    }
    at.wait(600);
    const now = at.now();
    expect(now.screen).toBe('play');
    expect(now.rig?.start?.surface).toBe(now.rig?.surfaces[1].id);
    expect(rigInUse(now)?.surfaces).toHaveLength(2);
    expect([...portsCounted(now)].sort()).toEqual(['Left', 'Right']);
  });

  it('a port that is turned off counts nowhere', () => {
    const at = taught();
    at.say({ kind: 'hear port', port: 'Left', counts: false });
    expect(portsCounted(at.now())).toEqual(['Right']);
    const before = at.now().rigging.task;
    at.strike('Left', 90, 51);
    expect(at.now().rigging.task).toBe(before);
  });

  it('one pad struck twice is either hand’s, and asks for both hands’ heights', () => {
    const at = player();
    at.strike('Right');
    at.wait(4200);
    at.strike('Right');
    at.wait(400);
    at.strike('Right');
    const { rig, rigging } = at.now();
    expect(rig?.surfaces.map(({ hand }) => hand)).toEqual([null]);
    expect(rigging.task.kind === 'heights' && rigging.task.state.asked).toHaveLength(6);
  });

  it('a new thing struck at rest is a new surface, and what was learned stays', () => {
    const at = taught();
    at.strike('Right', 90, 36);
    const { rig, rigging } = at.now();
    expect(rigging.task.kind).toBe('surfaces');
    expect(rig?.surfaces.map(({ name, foot }) => [name, foot])).toEqual([
      ['Snare', undefined],
      ['Snare 2', undefined],
      ['Bass drum', 'K'],
    ]);
    expect(rig?.surfaces[0].heights?.R?.full.n).toBe(8);
  });

  it('a hi-hat is one surface over its pedal positions, and its foot another', () => {
    const at = player();
    for (const note of [42, 46, 44]) {
      at.strike('Right', 90, note);
      at.wait(700);
    }
    expect(at.now().rig?.surfaces.map(({ name, notes }) => [name, notes])).toEqual([
      ['Hi-hat', [42, 46]],
      ['Hi-hat foot', [44]],
    ]);
  });

  it('hits within 1 ms on two surfaces make two surfaces', () => {
    const at = player();
    at.strike('Right', 90);
    at.strike('Left', 88);
    expect(at.now().rig?.surfaces).toHaveLength(2);
  });
});

describe('a step', () => {
  it('is asked again by two strikes elsewhere, and skipped by three', () => {
    const at = taught();
    at.say({ kind: 'begin step', task: 'heights' });
    at.wait(500);
    at.strike('Right', 25);
    at.wait(1000);
    const taps = (count: number): void => {
      for (let tap = 0; tap < count; tap += 1) {
        at.strike('Left');
        at.wait(200);
      }
      at.wait(700);
    };
    taps(2);
    const again = at.now().rigging.task;
    expect(again.kind === 'heights' && again.state.given[0]).toEqual([]);
    taps(3);
    const skipped = at.now().rigging.task;
    expect(skipped.kind === 'heights' && skipped.state.asked.map(({ hand }) => hand)).toEqual([
      'L',
      'L',
      'L',
    ]);
    expect(at.now().rig?.surfaces[0].heights?.R?.full.n).toBe(8);
  });

  it('that is left keeps what was shown', () => {
    const at = taught();
    const before = at.now().rig;
    at.say({ kind: 'begin step', task: 'spots' });
    at.strike('Right', 20);
    at.say({ kind: 'leave steps' });
    expect(at.now().rig).toBe(before);
  });

  it('of half a minute of single strokes ends by itself, with the echo window in the rig', () => {
    const at = taught();
    at.say({ kind: 'begin step', task: 'false notes' });
    for (let stroke = 0; stroke < 62; stroke += 1) {
      at.strike('Right', 100);
      at.wait(100);
      at.strike('Right', 12);
      at.wait(400);
    }
    const { rig, rigging } = at.now();
    expect(rigging.task.kind).toBe('between');
    expect(rig?.surfaces[0].echo?.fromMs).toBeLessThanOrEqual(100);
    expect(rig?.surfaces[0].echo?.toMs).toBeGreaterThanOrEqual(100);
    expect(rigging.results['false notes']?.[0]).toMatch(/echoes/);
    // The player who was still striking has begun nothing; after a silence one strike does.
    at.wait(1500);
    at.strike('Right');
    at.wait(700);
    expect(at.now().rigging.task.kind).toBe('delays');
  });

  it('of delays takes nothing into the rig before the player says so', () => {
    const at = taught();
    at.say({ kind: 'begin step', task: 'delays' });
    const clicksMs = Array.from({ length: 72 }, (_, click) => at.elapsedMs() + 1558 + 600 * click);
    at.say({ kind: 'clicks begun', clicksMs, output: null });
    for (let click = 0; click < 72; click += 1) {
      at.wait(600);
      at.strike('Right');
    }
    at.wait(1500);
    const found = at.now();
    expect(found.rigging.task.kind).toBe('delays found');
    expect(found.rig?.inputDelayMs).toBe(0);
    at.say({ kind: 'accept delays' });
    expect(at.now().rig?.delays?.output).toBe('together');
    // Every stroke is stamped 42 ms after its click.
    expect(at.now().rig?.inputDelayMs).toBeCloseTo(42, 9);
  });
});

describe('ports of one name', () => {
  const two = on(['1', 'Pad'], ['2', 'Pad (2)']);

  it('are asked for by a strike when they come back under other ids, and change places where they must', () => {
    const at = player(two);
    at.strike('Pad');
    at.wait(600);
    at.strike('Pad (2)');
    expect(at.now().rigging.uncertain).toEqual([]);
    at.status(two);
    expect(at.now().rigging.uncertain).toEqual([]);
    at.status(on(['8', 'Pad'], ['9', 'Pad (2)']));
    expect(at.now().rigging.uncertain).toEqual(['Pad', 'Pad (2)']);
    const [first] = at.now().rig?.surfaces ?? [];
    at.strike('Pad (2)');
    const now = at.now();
    expect(now.rigging.uncertain).toEqual([]);
    expect(now.rig?.surfaces.find(({ id }) => id === first.id)?.port).toBe('Pad (2)');
    expect(now.rig?.surfaces.map(({ port }) => port)).toEqual(['Pad (2)', 'Pad']);
    at.status(on(['8', 'Pad'], ['9', 'Pad (2)']));
    expect(at.now().rigging.uncertain).toEqual([]);
  });

  it('where three are there and the rig knows two, each of its own is asked for', () => {
    const at = player(two);
    at.strike('Pad');
    at.wait(600);
    at.strike('Pad (2)');
    const ids = at.now().rig?.surfaces.map(({ id }) => id) ?? [];
    const portOf = (id: string) => at.now().rig?.surfaces.find((surface) => surface.id === id)?.port;
    at.status(on(['7', 'Pad'], ['8', 'Pad (2)'], ['9', 'Pad (3)']));
    expect(at.now().rigging.uncertain).toEqual(['Pad', 'Pad (2)']);
    // The first of the rig is now at the second socket, its second at the third.
    at.strike('Pad (2)');
    expect(at.now().rigging.uncertain).toHaveLength(1);
    at.strike('Pad (3)');
    expect(at.now().rigging.uncertain).toEqual([]);
    expect(ids.map(portOf)).toEqual(['Pad (2)', 'Pad (3)']);
  });

  it('one of another name is never asked for', () => {
    const at = taught();
    at.status(on(['7', 'Right'], ['8', 'Left']));
    expect(at.now().rigging.uncertain).toEqual([]);
  });
});

describe('rigs', () => {
  it('are several, by name; a change is kept under the same id', () => {
    const at = taught();
    at.say({ kind: 'name rig', name: 'Two pads', newId: 'unused' });
    expect(at.now().rigging.rigs.map(({ id, name }) => [id, name])).toEqual([['one', 'Two pads']]);
    at.say({ kind: 'new rig' });
    expect(at.now().rig).toBeNull();
    at.say({ kind: 'choose rig', id: 'one' });
    expect(at.now().rig?.name).toBe('Two pads');
    at.say({ kind: 'name rig', name: ' ', newId: 'unused' });
    expect(at.now().problem).toBe('name must not be empty, got " "');
    expect(at.now().rig?.name).toBe('Two pads');
  });

  it('a surface that is removed takes its start with it', () => {
    const at = taught();
    const id = at.now().rig?.surfaces[1].id ?? '';
    at.say({ kind: 'start surface', surface: id });
    at.say({ kind: 'edit surfaces', edit: { kind: 'remove', id } });
    expect(at.now().rig?.start).toBeUndefined();
    expect(at.now().rig?.surfaces).toHaveLength(1);
  });
});
