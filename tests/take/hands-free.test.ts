import { describe, expect, it } from 'vitest';
import {
  handsFree,
  handsFreeAtRest,
  type HandsFreeEvent,
  type HandsFreeOptions,
} from '../../src/take/hands-free';
import { plainRigOf } from '../model-kit';
import type { Rig } from '../../src/sessions/types';

const rig: Rig = {
  ...plainRigOf({
    pads: [
      { id: 'snare', note: 38 },
      { id: 'rim', note: 37 },
    ],
  }),
  start: { surface: 'rim' },
};
const hit = (atMs: number, note: number, velocity = 80): HandsFreeEvent => ({
  kind: 'hit',
  hit: { atMs, port: 'Model kit', channel: 10, note, velocity },
});
const rim = (atMs: number, velocity?: number) => hit(atMs, 37, velocity);
const snare = (atMs: number, velocity?: number) => hit(atMs, 38, velocity);
const timeOf = (event: HandsFreeEvent) => (event.kind === 'hit' ? event.hit.atMs : event.atMs);

/** The commands with their times, a tick every 50 ms between the events and for two seconds after. */
function commands(events: readonly HandsFreeEvent[], options: HandsFreeOptions = {}, of = rig) {
  const lastMs = timeOf(events[events.length - 1]) + 2000;
  const ticks = Array.from({ length: Math.ceil(lastMs / 50) }, (_, n): HandsFreeEvent => ({
    kind: 'tick',
    atMs: 50 * n + 1,
  }));
  const all = [...events, ...ticks].sort((a, b) => timeOf(a) - timeOf(b));
  const step = handsFree(of, options);
  const given: string[] = [];
  let state = handsFreeAtRest;
  for (const event of all) {
    state = step(state, event);
    if (state.command !== null) given.push(state.command);
  }
  return given;
}
const playing: HandsFreeEvent = { kind: 'started', atMs: 0 };
const ended: HandsFreeEvent = { kind: 'ended', atMs: 0 };

describe('hands-free', () => {
  it('a strike on the rim starts; one with nothing after it stops', () => {
    expect(commands([rim(100), snare(3000), snare(3200), rim(4000)])).toEqual(['start', 'stop']);
  });

  it.each([
    [1, ['again']],
    [2, ['slower']],
    [3, ['faster']],
    [4, []],
  ])('after a stop %d strikes within a second are %j', (strikes, expected) => {
    const struck = Array.from({ length: strikes }, (_, n) => rim(1500 + 220 * n));
    expect(commands([ended, ...struck])).toEqual(expected);
  });

  it('stopping and then two strikes: slower', () => {
    expect(commands([playing, snare(2000), rim(2500), rim(4000), rim(4300)])).toEqual(['stop', 'slower']);
  });

  it('a take that ended by itself is answered the same way', () => {
    expect(commands([playing, snare(2000), { kind: 'ended', atMs: 3000 }, rim(4000)])).toEqual(['again']);
  });
});

describe('accidents', () => {
  it.each([
    ['a rim hit while playing on stops nothing', [playing, snare(2000), rim(2130), snare(2260), snare(2400)]],
    ['a soft touch starts nothing', [rim(100, 20)]],
    ['what a snare stroke shakes starts nothing', [snare(100, 120), rim(103, 40)]],
    ['strokes right after the end are no answer', [ended, rim(200), rim(420)]],
    ['strokes elsewhere among the strikes take them back', [ended, rim(1500), snare(1700), rim(1750)]],
  ])('%s', (_, events) => {
    expect(commands(events)).toEqual([]);
  });

  it('a bounce is no second strike', () => {
    expect(commands([ended, rim(1500), rim(1560)])).toEqual(['again']);
  });

  it('a strike that shakes the snare still counts', () => {
    expect(commands([rim(1500, 110), snare(1503, 12)])).toEqual(['start']);
  });

  it('a surface that the phrase uses starts, and never stops', () => {
    expect(commands([rim(100), rim(3000)], { alsoPlayed: true })).toEqual(['start']);
  });

  it('a rig without a start surface does nothing', () => {
    const { levelLaw, inputDelayMs, outputDelayMs, surfaces } = rig;
    const none: Rig = { levelLaw, inputDelayMs, outputDelayMs, surfaces };
    expect(commands([rim(100), rim(3000)], {}, none)).toEqual([]);
  });
});
