import { describe, expect, it } from 'vitest';
import {
  delaysAsked,
  delaysFound,
  delayWords,
  nextAlong,
  PLAY_ALONG_CLICKS,
  rigWithDelays,
} from '../../../src/midi/learning/delays';
import { clumpedPorts, nextStamp, noStamps, stampsOf } from '../../../src/midi/learning/clumped';
import { plainRigOf, reportedBy, type ModelKit } from '../../model-kit';
import { normal, seeded } from '../../../src/model/random';

const kit: ModelKit = {
  pads: [{ id: 'pad', note: 38, echo: { share: 0.3, afterMs: 60, spreadMs: 8, ratio: 0.3 } }],
  inputDelayMs: 12,
};
const rig = plainRigOf(kit);
const clicks = Array.from({ length: PLAY_ALONG_CLICKS }, (_, n) => 1000 + 500 * n);

/** Hears each click 30 ms late and plays to it, `habitMs` off it. */
function along(seed: number, habitMs = 0, spreadMs = 4) {
  const random = seeded(seed);
  const strikes = clicks.map((click) => ({
    atMs: click + 30 + habitMs + spreadMs * normal(random),
    pad: 'pad',
    levelDb: -10,
  }));
  return reportedBy(kit, strikes, seed).hits.reduce(nextAlong(rig), delaysAsked(clicks));
}

// Delay within 1 ms
describe('a short play-along', () => {
  it('finds input and output delay together within 1 ms, 42 ms', () => {
    const errors = Array.from({ length: 40 }, (_, n) =>
      Math.abs(delaysFound(along(n + 1), undefined)!.sumMs - 42),
    );
    expect(errors.filter((error) => error < 1).length).toBeGreaterThanOrEqual(38);
  });

  it('with the output latency of the audio clock what is left is the kit’s, 12 ms', () => {
    const found = delaysFound(along(3), { ms: 30, from: 'audio clock' })!;
    expect(Math.abs(found.inputMs - 12)).toBeLessThan(1);
    expect(rigWithDelays(rig, found)).toMatchObject({
      outputDelayMs: 30,
      delays: { output: 'audio clock' },
    });
    expect(delayWords(found)[1]).toMatch(/^The browser put the sound at 30\.0 ms; that leaves 1[12]\.\d ms/);
  });

  it('cannot tell the player’s habit from a delay, and says so', () => {
    const found = delaysFound(along(3, -10), undefined)!;
    expect(Math.abs(found.sumMs - 32)).toBeLessThan(1);
    expect(delayWords(found).join(' ')).toContain('Your own habit before or after the click is in it too');
  });

  it('gives the spread of single strokes', () => {
    expect(delaysFound(along(5, 0, 8), undefined)!.spreadMs).toBeCloseTo(8, -1);
  });

  it('says nothing of a few strokes, or of strokes that do not follow the click', () => {
    const state = along(1);
    expect(delaysFound({ ...state, latenessMs: state.latenessMs.slice(0, 19) }, undefined)).toBeUndefined();
    expect(delaysFound(along(1, 0, 100), undefined)).toBeUndefined();
  });
});

// Bluetooth core specification: connection intervals in steps of 1.25 ms from 7.5 ms
describe('time stamps in clumps', () => {
  const stamped = (seed: number, spreadMs: number, stamp: (atMs: number) => number) => {
    const random = seeded(seed);
    return Array.from({ length: 64 }, (_, n) => stamp(125 * n + spreadMs * normal(random))).reduce(
      (state, atMs) => nextStamp(state, { port: 'Pad', atMs }),
      noStamps,
    );
  };
  const every = (interval: number) => (atMs: number) => interval * Math.ceil(atMs / interval);

  it.each([11.25, 15, 20, 30])('every %d ms are noticed', (interval) => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const stamps = stampsOf(stamped(seed, 12, every(interval)), 'Pad');
      // or a divisor of it, where that many gaps do not tell them apart
      expect(stamps.kind === 'clumped' && interval / stamps.everyMs!).toBeOneOf([1, 2, 3]);
    }
  });

  it('stamps to the millisecond, as browsers round them, are fine', () => {
    for (let seed = 1; seed <= 100; seed += 1) {
      for (const spreadMs of [0, 1, 3, 6, 12]) {
        expect(stampsOf(stamped(seed, spreadMs, Math.round), 'Pad')).toEqual({ kind: 'fine' });
      }
    }
  });

  it('are of a port; few hits say nothing', () => {
    const state = nextStamp(stamped(1, 12, every(15)), { port: 'Other', atMs: 0 });
    expect(clumpedPorts(state)).toEqual(['Pad']);
    expect(stampsOf(state, 'Other')).toEqual({ kind: 'too few' });
  });
});

describe('which click a strike of the play-along belongs to', () => {
  // Clicks every 500 ms from 1000 ms on: a quarter of the gap is 125 ms.
  const strike = (atMs: number) => ({ atMs, port: 'Model kit', channel: 10, note: 38, velocity: 90 });
  const heardAt = (...times: number[]) => times.map(strike).reduce(nextAlong(rig), delaysAsked(clicks));

  it('the next one from a quarter of the gap before it on, the one before until then', () => {
    expect(heardAt(1375).latenessMs).toEqual([-125]);
    expect(heardAt(1374).latenessMs).toEqual([374]);
    expect(heardAt(1250).latenessMs).toEqual([250]);
    expect(heardAt(1500).latenessMs).toEqual([0]);
  });

  it('none, before the first click’s quarter and after the last click’s three quarters', () => {
    const last = clicks[clicks.length - 1];
    expect(heardAt(874).latenessMs).toEqual([]);
    expect(heardAt(875).latenessMs).toEqual([-125]);
    expect(heardAt(last + 374).latenessMs).toEqual([374]);
    expect(heardAt(last + 375).latenessMs).toEqual([]);
  });

  it('what comes within 100 ms after a strike is the pad’s', () => {
    expect(heardAt(1000, 1099).latenessMs).toEqual([0]);
    expect(heardAt(1000, 1100).latenessMs).toEqual([0, 100]);
  });

  it('16 strokes after the first four are enough, 15 are not', () => {
    const { clicksMs, latenessMs } = along(2);
    const found = (n: number) =>
      delaysFound({ clicksMs, latenessMs: latenessMs.slice(0, n), lastAtMs: null }, undefined);
    expect(found(19)).toBeUndefined();
    expect(found(20)?.n).toBeGreaterThanOrEqual(15);
  });

  it('strokes over three spreads out are mistakes', () => {
    // Of 39 and 41 ms ten each and one more the median is 41, the median distance 2: three spreads of 1.4826 × 2 are 8.9 ms.
    const lateness = (odd: number) => [...Array.from({ length: 4 }, () => 0), ...steady(), odd];
    const steady = () => Array.from({ length: 20 }, (_, n) => 40 + (n % 2 === 0 ? 1 : -1));
    const n = (odd: number) =>
      delaysFound({ clicksMs: clicks, latenessMs: lateness(odd), lastAtMs: null }, undefined)?.n;
    expect([n(41 + 8.8), n(41 + 9)]).toEqual([21, 20]);
  });
});
