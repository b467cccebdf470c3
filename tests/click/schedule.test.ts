import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clickBeats, clicksIn, countIn, plainOrder } from '../../src/click/schedule';
import { plainClick, type ClickPlan } from '../../src/exercises/click-plan';
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
  it('is one bar of four at any tempo, two where they are chosen', () => {
    expect(countIn(grid({ bpm: 120 }))).toEqual({
      bars: 1,
      beats: 4,
      sayBeats: 0,
      beatMs: 500,
      lengthMs: 2000,
    });
    expect(countIn(grid({ bpm: 60 }))).toMatchObject({ bars: 1, beats: 4, lengthMs: 4000 });
    const two = countIn(grid({ bpm: 60 }), { countInBars: 2, sayFirst: false });
    expect(two).toMatchObject({ bars: 2, beats: 8, lengthMs: 8000 });
  });

  it('ends one beat before the downbeat and is accented where a bar begins', () => {
    const clicks = clickBeats(grid({ bpm: 60 }), 10_000, {
      ...plainOrder,
      lead: { countInBars: 2, sayFirst: false },
    }).slice(0, 9);
    expect(clicks.map((click) => click.atMs)).toEqual([
      2000, 3000, 4000, 5000, 6000, 7000, 8000, 9000, 10_000,
    ]);
    expect(clicks.flatMap((click, i) => (click.voice === 'downbeat' ? [i] : []))).toEqual([0, 4, 8]);
  });
});

describe('the clicks of a take', () => {
  it('are four a bar after the count-in, at 120 bpm 500 ms apart', () => {
    const clicks = clickBeats(grid({ bpm: 120 }, 777), 3000);
    expect(clicks).toHaveLength(4 + 8);
    expect(clicks[0].atMs).toBe(1000);
    expect(clicks[11].atMs).toBe(6500);
    expect(clicks.filter(({ voice }) => voice === 'downbeat')).toHaveLength(3);
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

describe('which partials click', () => {
  /** Clicks of the first bar at 96 bpm, where a quarter lasts 625 ms and a sixteenth 156.25 ms (arithmetic). */
  const firstBar = (change: Partial<ClickPlan>, swing = 0.5) =>
    clickBeats(grid({ bpm: 96 }), 0, { ...plainOrder, plan: { ...plainClick, ...change }, swing })
      .filter(({ atMs }) => atMs >= 0 && atMs < 2500)
      .map(({ atMs, voice }) => [atMs, voice] as const);

  it('on every beat they are 625 ms apart, the first one a downbeat', () => {
    expect(firstBar({})).toEqual([
      [0, 'downbeat'],
      [625, 'beat'],
      [1250, 'beat'],
      [1875, 'beat'],
    ]);
  });

  it('on 2 and 4 they fall at 625 and 1875 ms', () => {
    expect(firstBar({ beats: 'backbeats' }).map(([atMs]) => atMs)).toEqual([625, 1875]);
  });

  it('once a bar there is the downbeat alone', () => {
    expect(firstBar({ beats: 'first' })).toEqual([[0, 'downbeat']]);
  });

  it('only the e falls a sixteenth after each beat', () => {
    expect(firstBar({ partials: [1] })).toEqual(
      [156.25, 781.25, 1406.25, 2031.25].map((atMs) => [atMs, 'subdivision']),
    );
  });

  it('all sixteenths are sixteen in time order', () => {
    const times = firstBar({ partials: [3, 1, 0, 2] }).map(([atMs]) => atMs);
    expect(times).toEqual(Array.from({ length: 16 }, (_, index) => index * 156.25));
  });

  it('a swing of 0.6 moves the e to 0.3 of the beat, 187.5 ms', () => {
    expect(firstBar({ partials: [1] }, 0.6)[0][0]).toBeCloseTo(187.5, 9);
  });

  it('a partial that no beat has does not click, and the count-in does all the same', () => {
    const clicks = clickBeats(grid({ bpm: 120 }), 0, {
      ...plainOrder,
      plan: { ...plainClick, partials: [7] },
    });
    expect(clicks.map(({ atMs }) => atMs)).toEqual([-2000, -1500, -1000, -500]);
  });
});

describe('bare bars', () => {
  it('one on, one bare: the second bar has no click', () => {
    const plan: ClickPlan = { ...plainClick, bare: { kind: 'steady', on: 1, off: 1 } };
    const times = clickBeats(grid({ bpm: 120 }), 0, { ...plainOrder, plan }).map(({ atMs }) => atMs);
    expect(times.filter((atMs) => atMs >= 0)).toEqual([0, 500, 1000, 1500]);
  });
});

describe('what leads in', () => {
  it('a bar said first is four clicks more, and the count-in is that much earlier', () => {
    const lead = { countInBars: 2, sayFirst: true } as const;
    expect(countIn(grid({ bpm: 120 }), lead)).toMatchObject({ beats: 8, sayBeats: 4, lengthMs: 6000 });
    const clicks = clickBeats(grid({ bpm: 120 }), 0, { ...plainOrder, lead });
    expect(clicks[0].atMs).toBe(-6000);
    expect(clicks.filter(({ atMs }) => atMs < 0)).toHaveLength(12);
  });
});
