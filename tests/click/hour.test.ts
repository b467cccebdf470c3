import { describe, expect, it } from 'vitest';
import { audioSecondsAt, withPair, type AudioClock } from '../../src/click/clock';
import { lookAhead } from '../../src/click/look-ahead';
import type { Timing } from '../../src/click/types';
import { gridOf } from '../../src/exercises/grid';
import { phraseNamed } from '../../src/exercises/phrase';
import { seeded } from '../../src/exercises/seeded';

// 96 bpm: a quarter lasts 625 ms, so an hour is 5760 clicks (arithmetic). Readings of both clocks jitter by up to 0.62 ms,
// measured in Chromium (tech.md, section 5); 100 ppm is a poor crystal (common practice, no source).
const HOUR_MS = 3_600_000;
const BPM = 96;

/** An hour of the click against an audio clock that runs `ppm` fast and whose readings jitter. */
function worstErrorMs(ppm: number, jitterMs: number): { readonly worst: number; readonly clicks: number } {
  const noise = seeded(7);
  const audioAt = (ms: number): number => (ms * (1 + ppm * 1e-6)) / 1000 + 3.2;
  const heardAtMs = (seconds: number): number => ((seconds - 3.2) * 1000) / (1 + ppm * 1e-6);
  let nowMs = 0;
  let tick: () => void = () => undefined;
  const timing: Timing = {
    nowMs: () => nowMs,
    every(_, work) {
      tick = work;
      return () => undefined;
    },
  };
  let clock: AudioClock | null = null;
  let worst = 0;
  let clicks = 0;
  const ahead = lookAhead(
    timing,
    ({ atMs }) => {
      if (clock === null || atMs < 0) return;
      clicks += 1;
      worst = Math.max(worst, Math.abs(heardAtMs(audioSecondsAt(clock, atMs)) - atMs));
    },
    {
      eachTick() {
        const performanceMs = nowMs + (noise() - 0.5) * 2 * jitterMs;
        clock = withPair(clock, { performanceMs, audioSeconds: audioAt(nowMs) });
      },
    },
  );
  const phrase = { ...phraseNamed('Single paradiddle, accent walk'), cycles: 360 };
  ahead.start(gridOf(phrase, { bpm: BPM }, 5000), 5000);
  for (nowMs = 0; nowMs <= HOUR_MS + 6000; nowMs += 25) tick();
  return { worst, clicks };
}

describe('an hour of the click', () => {
  it.each([100, -100, 0])(
    'stays under 1 ms of the performance clock where the audio clock runs %s ppm off',
    (ppm) => {
      const { worst, clicks } = worstErrorMs(ppm, 0.62);
      expect(clicks).toBe(5760 + 4);
      expect(worst).toBeLessThan(1);
    },
  );

  it('unsteered it would be 360 ms off at the end: 100 ppm of an hour', () => {
    expect(HOUR_MS * 100e-6).toBeCloseTo(360, 9);
  });
});
