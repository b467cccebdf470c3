import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clickBeats, clicksIn, countIn } from '../../src/click/schedule';
import { gridOf } from '../../src/exercises/grid';
import type { Phrase, Tempo } from '../../src/exercises/types';

// Tempo arithmetic: a beat at T bpm lasts 60,000/T ms. Count-in: common practice, no source.
const phrase: Phrase = {
  title: 'Single paradiddle',
  beatsPerBar: 4,
  partialsPerBeat: 4,
  cycles: 2,
  bars: [{ variation: 'accent on 1', sticking: 'Rlrr Lrll Rlrr Lrll' }],
};
const grid = (tempo: Tempo, downbeatMs = 0) => gridOf(phrase, tempo, downbeatMs);

describe('the count-in', () => {
  it('is one bar of four at 70 bpm and over, two bars under it', () => {
    expect(countIn(grid({ bpm: 120 }))).toEqual({ bars: 1, beats: 4, beatMs: 500, lengthMs: 2000 });
    expect(countIn(grid({ bpm: 70 })).beats).toBe(4);
    expect(countIn(grid({ bpm: 60 }))).toEqual({ bars: 2, beats: 8, beatMs: 1000, lengthMs: 8000 });
  });

  it('ends one beat before the downbeat and is accented where a bar begins', () => {
    const clicks = clickBeats(grid({ bpm: 60 }), 10_000).slice(0, 9);
    expect(clicks.map((click) => click.atMs)).toEqual([
      2000, 3000, 4000, 5000, 6000, 7000, 8000, 9000, 10_000,
    ]);
    expect(clicks.flatMap((click, i) => (click.accent ? [i] : []))).toEqual([0, 4, 8]);
  });
});

describe('the clicks of a take', () => {
  it('are four a bar after the count-in, at 120 bpm 500 ms apart', () => {
    const clicks = clickBeats(grid({ bpm: 120 }, 777), 3000);
    expect(clicks).toHaveLength(4 + 8);
    expect(clicks[0].atMs).toBe(1000);
    expect(clicks[11].atMs).toBe(6500);
    expect(clicks.filter((click) => click.accent)).toHaveLength(3);
  });

  it('follow a tempo that changes', () => {
    const ramp = grid({
      ramp: [
        { bar: 0, bpm: 60 },
        { bar: 2, bpm: 120 },
      ],
    });
    const times = clickBeats(ramp, 0)
      .filter((click) => click.atMs >= 0)
      .map((click) => click.atMs);
    const gaps = times.slice(1).map((time, i) => time - times[i]);
    expect(gaps.every((gap, i) => i === 0 || gap < gaps[i - 1])).toBe(true);
    expect(times[4]).toBeCloseTo(ramp.bars[1].startMs - ramp.bars[0].startMs, 9);
  });

  it('come each exactly once however time is cut up', () => {
    const clicks = clickBeats(grid({ bpm: 97 }), 4000);
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 12_000, noNaN: true })), (cuts) => {
        const edges = [0, ...cuts, 12_000].sort((a, b) => a - b);
        const pieces = edges.slice(1).flatMap((to, i) => clicksIn(clicks, edges[i], to));
        expect(pieces).toEqual(clicks.filter((click) => click.atMs < 12_000));
      }),
    );
  });
});
