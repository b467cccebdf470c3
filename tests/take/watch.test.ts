import { describe, expect, it } from 'vitest';
import type { MidiStatus } from '../../src/midi/types';
import { eventWords } from '../../src/take/event-words';
import { takeWatch, type WatchNews } from '../../src/take/watch';
import type { TakeEvent } from '../../src/sessions/take-events';
import type { Rig } from '../../src/sessions/types';

const rig: Rig = {
  levelLaw: 'gm2',
  inputDelayMs: 0,
  outputDelayMs: 0,
  surfaces: [{ id: 'pad', name: 'Pad', port: 'Pad', channel: 10, notes: [38], hand: null, trimDb: 0 }],
};
const on = (connected: boolean): MidiStatus => ({
  kind: 'on',
  inputs: [{ id: '1', name: 'Pad', connected }],
  outputs: [],
});

/** What is written into the take, and whether it is over at the end. */
function watched(news: readonly WatchNews[], ports = ['Pad']): { events: TakeEvent[]; over: boolean } {
  const { start, step } = takeWatch(rig, ports);
  const events: TakeEvent[] = [];
  let watch = start;
  for (const one of news) {
    watch = step(watch, one);
    events.push(...watch.events);
  }
  return { events, over: watch.over };
}
const tick = (atMs: number, wallMs = 1e12 + atMs): WatchNews => ({ kind: 'tick', atMs, wallMs });
const strike = (atMs: number, note: number, stampMs = atMs): WatchNews => ({
  kind: 'hit',
  atMs,
  hit: { atMs: stampMs, port: 'Pad', channel: 10, note, velocity: 90 },
});

// What each fault is: from the browsers' own specifications (Web MIDI, Page Visibility, Permissions); the limits are common practice.
describe('a take goes on', () => {
  it('without its port, which is written down as it goes and as it comes back', () => {
    const { events, over } = watched([
      { kind: 'midi', atMs: 10, status: on(true) },
      { kind: 'midi', atMs: 20, status: on(false) },
      { kind: 'midi', atMs: 25, status: on(false) },
      { kind: 'midi', atMs: 30, status: on(true) },
    ]);
    expect(events).toEqual([
      { kind: 'port gone', atMs: 20, port: 'Pad' },
      { kind: 'port back', atMs: 30, port: 'Pad' },
    ]);
    expect(over).toBe(false);
  });

  it('with two ports, each of which is watched', () => {
    const both = (pad: boolean, kick: boolean): MidiStatus => ({
      kind: 'on',
      inputs: [
        { id: '1', name: 'Pad', connected: pad },
        { id: '2', name: 'Kick', connected: kick },
      ],
      outputs: [],
    });
    const kick = (atMs: number, note: number): WatchNews => ({
      kind: 'hit',
      atMs,
      hit: { atMs, port: 'Kick', channel: 10, note, velocity: 90 },
    });
    const { events } = watched(
      [
        { kind: 'midi', atMs: 10, status: both(true, true) },
        { kind: 'midi', atMs: 20, status: both(true, false) },
        kick(25, 36),
        strike(26, 36),
        kick(27, 36),
        { kind: 'midi', atMs: 30, status: both(false, true) },
      ],
      ['Pad', 'Kick'],
    );
    expect(events).toEqual([
      { kind: 'port gone', atMs: 20, port: 'Kick' },
      { kind: 'unknown note', atMs: 25, port: 'Kick', channel: 10, note: 36 },
      { kind: 'unknown note', atMs: 26, port: 'Pad', channel: 10, note: 36 },
      { kind: 'port gone', atMs: 30, port: 'Pad' },
      { kind: 'port back', atMs: 30, port: 'Kick' },
    ]);
  });

  it('and a bundled take has no port to lose', () => {
    expect(watched([{ kind: 'midi', atMs: 20, status: on(false) }], []).events).toEqual([]);
  });

  it('when the page is hidden, though its ticks come a minute apart', () => {
    const { events, over } = watched([
      tick(0),
      { kind: 'page', atMs: 100, hidden: true },
      tick(60_000),
      tick(120_000),
      { kind: 'page', atMs: 120_100, hidden: false },
    ]);
    expect(events.map(({ kind }) => kind)).toEqual(['page hidden', 'page shown']);
    expect(over).toBe(false);
  });

  it('when the wall clock is set, by a second on or an hour back', () => {
    const { events, over } = watched([tick(0), tick(500, 1e12 + 1500), tick(1000, 1e12 - 3_600_000)]);
    expect(events).toEqual([
      { kind: 'clock set', atMs: 500, byMs: 1000 },
      { kind: 'clock set', atMs: 1000, byMs: -3_602_000 },
    ]);
    expect(over).toBe(false);
  });

  it('when permission is withdrawn, and given again', () => {
    const { events } = watched([
      { kind: 'midi', atMs: 10, status: { kind: 'failed', reason: 'refused' } },
      { kind: 'midi', atMs: 20, status: on(true) },
    ]);
    expect(events.map(({ kind }) => kind)).toEqual(['midi withdrawn', 'midi allowed']);
  });

  it('with notes the rig does not know, each told once', () => {
    const { events } = watched([strike(1, 38), strike(2, 45), strike(3, 45), strike(4, 26)]);
    expect(events.map((event) => (event.kind === 'unknown note' ? event.note : 0))).toEqual([45, 26]);
  });

  it('when time stamps are of another clock, told once until they are right again', () => {
    const { events } = watched([strike(5000, 38, 90_000), strike(5100, 38, 90_100), strike(5200, 38)]);
    expect(events).toEqual([{ kind: 'stamps jumped', atMs: 5000, byMs: 85_000 }]);
  });

  it('when sound stops, comes back, or its device changes', () => {
    const { events } = watched([
      { kind: 'sound', atMs: 1, now: 'running' },
      { kind: 'sound', atMs: 2, now: 'stopped' },
      { kind: 'sound', atMs: 3, now: 'device' },
      { kind: 'sound', atMs: 4, now: 'running' },
    ]);
    expect(events.map(({ kind }) => kind)).toEqual(['sound stopped', 'sound device changed', 'sound back']);
  });
});

describe('a take is over', () => {
  it('where the computer slept and the page’s clock stood still', () => {
    const { events, over } = watched([tick(0), tick(500, 1e12 + 40_500)]);
    expect(events).toEqual([{ kind: 'slept', atMs: 500, byMs: 40_000 }]);
    expect(over).toBe(true);
  });

  it('where it slept and the page’s clock went on', () => {
    expect(watched([tick(0), tick(40_000)]).over).toBe(true);
  });
});

it('every fault is said in words that tell what becomes of the strokes or the take', () => {
  const said: TakeEvent[] = [
    { kind: 'port gone', atMs: 0, port: 'Pad' },
    { kind: 'slept', atMs: 0, byMs: 40_000 },
    { kind: 'unknown note', atMs: 0, port: 'Pad', channel: 10, note: 45 },
    { kind: 'clock set', atMs: 0, byMs: -1500 },
  ];
  expect(said.map(eventWords)).toEqual([
    'Pad is not connected. The take goes on; strokes count again when it is back.',
    'The computer slept for 40 s. The take ends there; all that was played is kept.',
    'Note 45 on channel 10 is of no surface of this rig. It is kept, and not graded.',
    'The computer’s clock was set 1.5 s back. The take keeps its own time.',
  ]);
});
