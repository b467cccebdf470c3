import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bareBars, changedClick, clicksAt, plainClick } from '../../src/exercises/click-plan';

// What clicks where is counted by hand; the ranges are common practice, no source.
const play = (bars: number): 'play'[] => Array.from({ length: bars }, () => 'play');
const drawn = (bare: readonly boolean[]): string => bare.map((one) => (one ? '-' : 'x')).join('');

describe('bare bars', () => {
  it('two on and two bare alternate, the click first', () => {
    expect(drawn(bareBars({ kind: 'steady', on: 2, off: 2 }, play(8)))).toBe('xx--xx--');
  });

  it('thinning out leaves 1, 2, 3 bars bare, then 3 again', () => {
    expect(drawn(bareBars({ kind: 'thinning', on: 1, most: 3 }, play(14)))).toBe('x-x--x---x---x');
  });

  it('bars to listen to or to count aloud always click and count for nothing', () => {
    const roles = ['say', 'play', 'listen', 'play', 'play'] as const;
    expect(drawn(bareBars({ kind: 'steady', on: 1, off: 1 }, roles))).toBe('xxx-x');
  });

  it('the first bar always clicks, and no run of bare bars is longer than asked', () => {
    const counts = fc.integer({ min: 1, max: 9 });
    fc.assert(
      fc.property(counts, counts, fc.constantFrom('steady', 'thinning'), (on, off, kind) => {
        const bare =
          kind === 'steady' ? ({ kind, on, off } as const) : ({ kind: 'thinning', on, most: off } as const);
        // Nine on and one to nine off are 126 bars.
        const bars = drawn(bareBars(bare, play(150)));
        expect(bars.startsWith('x'.repeat(on) + '-')).toBe(true);
        expect(Math.max(...(bars.match(/-+/g) ?? []).map((run) => run.length))).toBe(off);
      }),
    );
  });
});

describe('a plan of the click', () => {
  it('has own beats, from 0', () => {
    const plan = changedClick(plainClick, { beats: [0, 2] });
    expect([0, 1, 2, 3].map((beat) => clicksAt(plan, beat, 0))).toEqual([true, false, true, false]);
  });

  it('refuses to sound nowhere, a pitch nobody hears well, and 65 bare bars, by name', () => {
    expect(() => changedClick(plainClick, { partials: [] })).toThrow(
      'Click must sound on one partial at least',
    );
    const shrill = { ...plainClick.voices, beat: { levelDb: 0, hz: 9000, note: 37 } };
    expect(() => changedClick(plainClick, { voices: shrill })).toThrow(
      'Pitch of the click must be from 200 to 4000 Hz, got 9000',
    );
    expect(() => changedClick(plainClick, { bare: { kind: 'steady', on: 1, off: 65 } })).toThrow(
      'Bare bars must be a whole number from 1 to 64, got 65',
    );
  });
});
