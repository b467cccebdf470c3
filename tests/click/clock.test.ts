import fc from 'fast-check';
import { expect, it } from 'vitest';
import { audioSecondsAt, withPair, type AudioClock } from '../../src/click/clock';

// Arithmetic; that single readings may jump by a render buffer (10 ms): measured in Chromium.
const clockOf = (...pairs: [performanceMs: number, audioSeconds: number][]): AudioClock =>
  pairs.reduce<AudioClock | null>(
    (clock, [performanceMs, audioSeconds]) => withPair(clock, { performanceMs, audioSeconds }),
    null,
  )!;

it('a click due at 3000 ms sounds 2 s after an audio second read at 1000 ms', () => {
  expect(audioSecondsAt(clockOf([1000, 0.5]), 3000)).toBe(2.5);
});

it('one wild reading moves nothing', () => {
  const clock = clockOf([1000, 0.5], [1025, 0.525], [1050, 1.9], [1075, 0.575], [1100, 0.6]);
  expect(audioSecondsAt(clock, 2000)).toBeCloseTo(1.5, 12);
});

it('follows a drift of 100 ppm to a tenth of a millisecond over a minute', () => {
  let clock: AudioClock | null = null;
  for (let ms = 0; ms <= 60_000; ms += 25) {
    clock = withPair(clock, { performanceMs: ms, audioSeconds: (ms * 1.0001) / 1000 });
  }
  expect(Math.abs(audioSecondsAt(clock!, 60_000) - 60.006)).toBeLessThan(0.0001);
});

it('forgets what was read over a second ago', () => {
  let clock = clockOf([0, 5]);
  for (let tick = 1; tick <= 41; tick += 1) {
    clock = withPair(clock, { performanceMs: tick * 25, audioSeconds: tick * 0.025 });
  }
  expect(clock.offsetsMs).toHaveLength(41);
  expect(clock.offsetMs).toBeCloseTo(0, 9);
});

it('a second later is heard a second later', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1e7, noNaN: true }), (ms) => {
      const clock = clockOf([1234.5, 0.25]);
      expect(audioSecondsAt(clock, ms + 1000) - audioSecondsAt(clock, ms)).toBeCloseTo(1, 6);
    }),
  );
});
