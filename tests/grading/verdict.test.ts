import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitOf } from '../../src/grading/figures/limits';
import { bandOf, judged, judgedIfEnough, marginOf, supportedMargin } from '../../src/grading/verdict';
import { settingsOf } from '../../src/settings';

const working = settingsOf('working');
const leak = limitOf('leakBefore', working, { gapMs: 0 });
const contrast = limitOf('contrast', working, { gapMs: 0 });
const fade = limitOf('fade', working, { gapMs: 0 });
const sharp = (value: number): { value: number; interval: readonly [number, number] } => ({
  value,
  interval: [value, value],
});

// Limits: common practice, no source. The arithmetic of the margin: straight lines, by hand.
describe('margin', () => {
  it('is 0 exactly where a measure holds, -1 where it is not yet, +1 at the ideal', () => {
    expect([2, 5, 0].map((value) => marginOf(value, leak))).toEqual([0, -1, 1]);
    expect([12, 6, 18].map((value) => marginOf(value, contrast))).toEqual([0, -1, 1]);
    expect([2, -2, 5, -5, 0].map((value) => marginOf(value, fade))).toEqual([0, 0, -1, -1, 1]);
  });

  it('is half-way between half-way, and goes on beyond not yet', () => {
    expect(marginOf(1, leak)).toBe(0.5);
    expect(marginOf(3.5, leak)).toBe(-0.5);
    expect(marginOf(8, leak)).toBe(-2);
    expect(marginOf(-8, fade)).toBe(-2);
  });

  it('is capped at the ideal: softer than nought is no better than none', () => {
    expect(marginOf(-3, leak)).toBe(1);
    expect(marginOf(30, contrast)).toBe(1);
  });

  it('never rises as a leak grows', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (at, more) => {
          expect(marginOf(at + more, leak)).toBeLessThanOrEqual(marginOf(at, leak));
        },
      ),
    );
  });
});

describe('supported margin', () => {
  it('is the mean of the margin and that of the end nearer the ideal', () => {
    // 3.5 dB stands at -0.5; the near end, 2 dB, at 0
    expect(supportedMargin({ value: 3.5, interval: [2, 5] }, leak)).toBe(-0.25);
    expect(supportedMargin({ value: 9, interval: [6, 12] }, contrast)).toBe(-0.25);
  });

  it('of a two-sided measure whose interval spans the ideal takes the ideal', () => {
    // 3.5 dB stands at -0.5; the interval reaches 0, at +1
    expect(supportedMargin({ value: 3.5, interval: [-1, 8] }, fade)).toBe(0.25);
  });
});

describe('band', () => {
  it('holds from 0 up, is not yet below -1, and close between', () => {
    expect([0, 1, -0.001, -1, -1.001].map(bandOf)).toEqual(['holds', 'holds', 'close', 'close', 'not yet']);
  });

  it('at its limit holds, and a hair over is close', () => {
    expect(judged(sharp(2), [9], leak, working).band).toBe('holds');
    expect(judged(sharp(2.001), [9], leak, working).band).toBe('close');
    expect(judged(sharp(5), [9], leak, working).band).toBe('close');
    expect(judged(sharp(5.001), [9], leak, working).band).toBe('not yet');
  });

  it('is sure where both ends lie in it', () => {
    expect(judged({ value: 1, interval: [0.5, 1.5] }, [9], leak, working)).toMatchObject({
      band: 'holds',
      sure: true,
    });
    expect(judged({ value: 1, interval: [0.5, 2.5] }, [9], leak, working)).toMatchObject({
      band: 'holds',
      sure: false,
    });
  });

  it('is never sure of a fault whose interval spans the ideal', () => {
    expect(judged({ value: 4.9, interval: [-4.9, 9] }, [9], fade, working).sure).toBe(false);
    expect(judged({ value: 8, interval: [-8, 24] }, [9], fade, working)).toMatchObject({
      band: 'close',
      sure: false,
    });
  });

  it('nor where both its ends lie in the same band on either side of the ideal', () => {
    // 11.5 dB stands at −1 − 6.5/3; with the ideal, +1, in its interval it is at −1.08 still: not yet, and both ends are too.
    expect(judged({ value: 11.5, interval: [-6, 12] }, [9], fade, working)).toMatchObject({
      band: 'not yet',
      sure: false,
    });
    expect(judged({ value: 11.5, interval: [6, 12] }, [9], fade, working)).toMatchObject({
      band: 'not yet',
      sure: true,
    });
    // Where it holds the ideal may well be inside.
    expect(judged({ value: 0.2, interval: [-1, 1.5] }, [9], fade, working)).toMatchObject({
      band: 'holds',
      sure: true,
    });
  });

  it('is sure from as many strokes of each group as the setting says, not from one less', () => {
    const sure = (n: readonly number[], settings = working): boolean | undefined =>
      judged(sharp(1), n, leak, settings).sure;
    expect([sure([8, 8]), sure([7, 8]), sure([8, 7])]).toEqual([true, false, false]);
    const strict = settingsOf('working', { 'few.sure': 12 });
    expect([sure([12], strict), sure([11], strict)]).toEqual([true, false]);
  });

  it('of just enough strokes is judged', () => {
    const of = (n: readonly number[]) =>
      judgedIfEnough(
        () => sharp(1),
        n,
        'few.group',
        () => leak,
        working,
      ).band;
    expect([of([4, 4]), of([3, 4]), of([4, 3])]).toEqual(['holds', 'too few strokes', 'too few strokes']);
  });

  it('of too few strokes says so, without a value', () => {
    expect(
      judgedIfEnough(
        () => sharp(1),
        [4, 3],
        'few.group',
        () => leak,
        working,
      ),
    ).toEqual({
      value: null,
      interval: null,
      n: [4, 3],
      margin: null,
      supported: null,
      band: 'too few strokes',
      sure: false,
    });
  });
});

describe('limits', () => {
  it('scatter holds at 8 % of the gap, at least 8 and at most 16 ms, and is not yet at twice that', () => {
    expect(limitOf('scatter', working, { gapMs: 150 })).toMatchObject({ holds: 12, notYet: 24 });
    expect(limitOf('scatter', working, { gapMs: 60 }).holds).toBe(8);
    expect(limitOf('scatter', working, { gapMs: 400 }).holds).toBe(16);
  });

  it('a double holds within the larger of 5 % and 8 ms, as % of its gap', () => {
    expect(limitOf('doubleGap', working, { gapMs: 100 })).toMatchObject({ holds: 8, notYet: 16 });
    expect(limitOf('doubleGap', working, { gapMs: 200 })).toMatchObject({ holds: 5, notYet: 12 });
  });

  it('follow the teacher’s choice', () => {
    expect(limitOf('contrast', settingsOf('first year'), { gapMs: 0 })).toMatchObject({
      holds: 8,
      notYet: 4,
    });
    expect(limitOf('contrast', settingsOf('recital'), { gapMs: 0 })).toMatchObject({ holds: 14, notYet: 9 });
  });
});
