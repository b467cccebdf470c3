import { NEVER } from 'rxjs';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { bassDrumSound, hihatFootSound, snareSound } from '../../src/click/drum-sound';
import { heard } from '../../src/click/hear';
import { audioPlayer } from '../../src/click/hear-audio';
import { kitPlayer, START_MS } from '../../src/click/hear-player';
import { pageTiming, type AudioOut } from '../../src/click/web-audio';
import { phraseFromText } from '../../src/exercises/phrase';

const bar = phraseFromText('Rl(r)L', { beatsPerBar: 1, partialsPerBeat: 4, cycles: 1 });
const sound = heard({ ...bar, feet: 'K-H-' }, { bpm: 120 }, { hand: 'both', speed: 'full' });

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'], now: 0 });
});
afterEach(() => {
  vi.useRealTimers();
});

describe('a phrase on the kit', () => {
  it('is sent as notes of the General MIDI percussion map, at their times and levels', () => {
    // Snare 38, bass drum 36, pedal hi-hat 44. 40·log10(v/127): -4 dB is velocity 101, -20 dB 40, -26 dB 28, -8 dB 80.
    const sent: number[][] = [];
    const ended = vi.fn();
    kitPlayer((...note) => sent.push(note), ended, undefined, pageTiming).start(sound);
    vi.advanceTimersByTime(START_MS + 200);
    expect(ended).not.toHaveBeenCalled();
    vi.advanceTimersByTime(1000);
    expect(sent.map(([channel, note, velocity, atMs]) => [channel, note, velocity, atMs - START_MS])).toEqual(
      [
        [10, 38, 101, 0],
        [10, 36, 80, 0],
        [10, 38, 40, 125],
        [10, 38, 28, 250],
        [10, 44, 80, 250],
        [10, 38, 101, 375],
      ],
    );
    expect(ended).toHaveBeenCalledTimes(1);
    expect(vi.getTimerCount()).toBe(0);
  });

  it('stops when told, without saying that it ended', () => {
    const ended = vi.fn();
    const kit = kitPlayer(() => undefined, ended);
    kit.start(sound);
    vi.advanceTimersByTime(50);
    kit.stop();
    vi.advanceTimersByTime(2000);
    expect(ended).not.toHaveBeenCalled();
    expect(vi.getTimerCount()).toBe(0);
  });
});

it('a phrase through the page’s sound has a tenth of the amplitude at -20 dB', () => {
  const played: (number | undefined)[] = [];
  const channel = {
    play: (_: unknown, __: number, gain?: number) => played.push(gain),
    silence: vi.fn(),
    setGain: () => undefined,
  };
  const out: AudioOut = {
    wake: () => Promise.resolve(),
    begin: () => undefined,
    measure: () => undefined,
    delayMs: () => 0,
    changes$: NEVER,
    now$: NEVER,
    channel: () => channel,
  };
  const taps = heard(bar, { bpm: 120 }, { hand: 'L', speed: 'full' });
  const ear = audioPlayer(out);
  ear.start(taps);
  vi.advanceTimersByTime(1000);
  expect(played.map((gain) => Number(gain?.toFixed(4)))).toEqual([0.1, 0.631]);
  ear.stop();
  expect(channel.silence).toHaveBeenCalled();
});

describe.each([
  ['snare', snareSound],
  ['bass drum', bassDrumSound],
  ['hi-hat foot', hihatFootSound],
] as const)('the sound of a %s', (_, sound) => {
  it('begins at once, stays in bounds, dies away, and is the same each time', () => {
    const samples = sound(48_000);
    const peak = Math.max(...samples.map(Math.abs));
    expect(Math.max(...samples.slice(0, 100).map(Math.abs))).toBeGreaterThan(0.3 * peak);
    expect(peak).toBeGreaterThan(0.3);
    expect(peak).toBeLessThanOrEqual(1);
    expect(Math.abs(samples[samples.length - 1])).toBeLessThan(0.001);
    expect(sound(48_000)).toEqual(samples);
  });
});
