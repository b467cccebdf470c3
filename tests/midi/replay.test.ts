import { VirtualTimeScheduler } from 'rxjs';
import { describe, expect, it } from 'vitest';
import { replay } from '../../src/midi/replay';
import type { Take } from '../../src/sessions/types';

const take = (downbeatMs: number | null, times: readonly number[]): Take => ({
  format: 'evenhand-take',
  version: 1,
  id: 'x',
  player: 'Model player',
  recordedAt: '2026-03-02T17:05:11.000Z',
  source: 'model',
  phrase: {
    title: '',
    beatsPerBar: 4,
    partialsPerBeat: 1,
    cycles: 1,
    bars: [{ variation: '', sticking: 'rlrl' }],
  },
  tempo: { bpm: 120 },
  click: 'on',
  limits: 'working',
  settings: {},
  rig: { levelLaw: 'gm2', inputDelayMs: 0, outputDelayMs: 0, surfaces: [] },
  downbeatMs,
  hits: times.map((atMs, i) => ({ atMs, port: 'model', channel: 10, note: 38, velocity: 50 + i })),
  notes: '',
});

function played(one: Take, downbeatMs: number, startMs = 0) {
  const scheduler = new VirtualTimeScheduler();
  scheduler.frame = startMs;
  const came: { cameMs: number; atMs: number; velocity: number }[] = [];
  let completed = false;
  replay(one, downbeatMs, { nowMs: () => scheduler.now(), scheduler }).subscribe({
    next: (hit) => came.push({ cameMs: scheduler.now(), atMs: hit.atMs, velocity: hit.velocity }),
    complete: () => (completed = true),
  });
  scheduler.flush();
  return { came, completed };
}

describe('a take as a port', () => {
  it('comes in real time, stamped from the downbeat it is given', () => {
    const { came, completed } = played(take(2000, [1995, 2500.5, 2500.5, 3000]), 9000);
    expect(came).toEqual([
      { cameMs: 8995, atMs: 8995, velocity: 50 },
      { cameMs: 9500.5, atMs: 9500.5, velocity: 51 },
      { cameMs: 9500.5, atMs: 9500.5, velocity: 52 },
      { cameMs: 10_000, atMs: 10_000, velocity: 53 },
    ]);
    expect(completed).toBe(true);
  });

  it('begins with its first hit where it has no downbeat', () => {
    expect(played(take(null, [700, 800]), 100).came.map((hit) => hit.atMs)).toEqual([100, 200]);
  });

  it('gives at once what was due before it was heard', () => {
    const { came } = played(take(0, [0, 100, 400]), 1000, 1200);
    expect(came.map((hit) => [hit.cameMs, hit.atMs])).toEqual([
      [1200, 1000],
      [1200, 1100],
      [1400, 1400],
    ]);
  });

  it('without hits is over at once', () => {
    expect(played(take(0, []), 0)).toEqual({ came: [], completed: true });
  });

  it('stops in the middle when nobody listens any more', () => {
    const scheduler = new VirtualTimeScheduler();
    let came = 0;
    const hearing = replay(take(0, [0, 1, 1, 2]), 0, { nowMs: () => scheduler.now(), scheduler }).subscribe(
      () => {
        came += 1;
        if (came === 2) hearing.unsubscribe();
      },
    );
    scheduler.flush();
    expect(came).toBe(2);
  });
});
