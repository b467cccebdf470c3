import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { audioClick } from '../../src/click/audio-click';
import { midiClick } from '../../src/click/midi-click';
import { clickSamples } from '../../src/click/sound';
import { audioOut, pageTiming } from '../../src/click/web-audio';
import { plainOrder } from '../../src/click/schedule';
import { plainClick } from '../../src/exercises/click-plan';
import { gridOf } from '../../src/exercises/grid';
import type { Phrase } from '../../src/exercises/types';

// −6 dB is velocity 90 by 40·log10(v/127), General MIDI 2. At 120 bpm a beat lasts 500 ms. Note 37 on channel 10: side stick, General MIDI level 1 percussion key map.
const phrase: Phrase = {
  title: 'Taps',
  beatsPerBar: 4,
  partialsPerBeat: 1,
  cycles: 1,
  bars: [{ variation: 'taps', sticking: 'r l r l' }],
};
const grid = gridOf(phrase, { bpm: 120 }, 0);
const DUE = [1000, 1500, 2000, 2500, 3000, 3500, 4000, 4500];

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'], now: 0 });
});
afterEach(() => {
  vi.useRealTimers();
});

describe('the click on a MIDI output', () => {
  const sent: { note: number; velocity: number; atMs: number; sentAtMs: number }[] = [];
  const click = midiClick((_channel, note, velocity, atMs) => {
    sent.push({ note, velocity, atMs, sentAtMs: performance.now() });
  }, pageTiming);
  beforeEach(() => {
    sent.length = 0;
  });

  it('is a side stick a beat, sent at most 250 ms and never less than 225 ms ahead', () => {
    click.start(grid, 3000);
    vi.advanceTimersByTime(6000);
    expect(sent.map((note) => note.atMs)).toEqual(DUE);
    expect(sent.every(({ note }) => note === 37)).toBe(true);
    expect(sent.every(({ atMs, sentAtMs }) => atMs - sentAtMs <= 250 && atMs - sentAtMs >= 225)).toBe(true);
    expect(sent.map((note) => note.velocity)).toEqual([127, 90, 90, 90, 127, 90, 90, 90]);
  });

  it('a voice that is silent sends nothing, and each voice has its own note', () => {
    const voices = {
      downbeat: { levelDb: -12, hz: 1000, note: 76 },
      beat: { levelDb: null, hz: 1000, note: 77 },
      subdivision: { levelDb: 0, hz: 1000, note: 78 },
    };
    click.start(grid, 3000, { ...plainOrder, plan: { ...plainClick, voices } });
    vi.advanceTimersByTime(6000);
    // −12 dB: 127·10^(−12/40) = 63.7.
    expect(sent.map(({ note, velocity, atMs }) => [note, velocity, atMs])).toEqual([
      [76, 64, 1000],
      [76, 64, 3000],
    ]);
  });

  it('stops when told, and leaves no timer when it is over', () => {
    click.start(grid, 3000);
    vi.advanceTimersByTime(2000);
    click.stop();
    vi.advanceTimersByTime(4000);
    expect(sent.map((note) => note.atMs)).toEqual([1000, 1500, 2000]);
    click.start(grid, 9000);
    vi.advanceTimersByTime(9000);
    expect(vi.getTimerCount()).toBe(0);
  });

  it('skips the beats of a count-in that began in the past', () => {
    vi.advanceTimersByTime(1600);
    click.start(grid, 3000);
    vi.advanceTimersByTime(6000);
    expect(sent.map((note) => note.atMs)).toEqual([2000, 2500, 3000, 3500, 4000, 4500]);
  });

  it('begins anew where it is started twice', () => {
    click.start(grid, 3000);
    click.start(grid, 4000);
    vi.advanceTimersByTime(7000);
    expect(sent.map((note) => note.atMs)).toEqual(DUE.map((due) => due + 1000));
  });
});

/** An audio system whose clock began at performance time 200 ms and that is heard 40 ms after it renders. */
class FakeAudio extends EventTarget {
  state = 'suspended';
  readonly sampleRate = 48_000;
  readonly baseLatency = 0.01;
  readonly outputLatency = 0.03;
  readonly destination = {};
  readonly gain = { gain: { value: 1 }, connect: () => undefined };
  readonly starts: number[] = [];
  stopped = 0;
  get currentTime(): number {
    return (performance.now() - 200) / 1000;
  }
  getOutputTimestamp() {
    return { contextTime: this.currentTime - 0.04, performanceTime: performance.now() };
  }
  resume() {
    this.state = 'running';
    this.dispatchEvent(new Event('statechange'));
    return Promise.resolve();
  }
  createGain() {
    return this.gain;
  }
  createBuffer() {
    return { copyToChannel: () => undefined };
  }
  createBufferSource() {
    const source = Object.assign(new EventTarget(), {
      buffer: null,
      connect: () => undefined,
      disconnect: () => undefined,
      start: (at: number) => this.starts.push(at),
      stop: () => (this.stopped += 1),
    });
    return source;
  }
}

describe('the click in Web Audio', () => {
  it('is heard on the beat of the performance clock', async () => {
    const audio = new FakeAudio();
    const click = audioClick(audioOut(() => audio as unknown as AudioContext));
    vi.advanceTimersByTime(300);
    await click.wake();
    click.start(grid, 3000);
    vi.advanceTimersByTime(6000);
    // Heard at performance time ms: rendered 40 ms earlier by an audio clock that is 200 ms behind.
    expect(audio.starts.map((at) => Math.round(at * 1e6) / 1e3)).toEqual(DUE.map((due) => due - 240));
  });

  it('leaves out the beats before the audio runs, and plays none of them late', async () => {
    const audio = new FakeAudio();
    audio.resume = () => Promise.resolve();
    const click = audioClick(audioOut(() => audio as unknown as AudioContext));
    click.start(grid, 3000);
    vi.advanceTimersByTime(2100);
    delete (audio as Partial<FakeAudio>).resume;
    await click.wake();
    vi.advanceTimersByTime(4000);
    expect(audio.starts.map((at) => Math.round(at * 1e6) / 1e3)).toEqual([2260, 2760, 3260, 3760, 4260]);
  });

  it('takes back what is not heard yet when it stops', async () => {
    const audio = new FakeAudio();
    const click = audioClick(audioOut(() => audio as unknown as AudioContext));
    await click.wake();
    vi.advanceTimersByTime(300);
    click.start(grid, 2500);
    vi.advanceTimersByTime(25);
    click.stop();
    vi.advanceTimersByTime(5000);
    expect(audio.starts).toHaveLength(1);
    expect(audio.stopped).toBe(1);
  });

  it('can be silent and goes on counting', async () => {
    const audio = new FakeAudio();
    const click = audioClick(audioOut(() => audio as unknown as AudioContext));
    click.setGain(0);
    vi.advanceTimersByTime(300);
    await click.wake();
    expect(audio.gain.gain.value).toBe(0);
    click.start(grid, 3000);
    vi.advanceTimersByTime(6000);
    expect(audio.starts).toHaveLength(8);
    click.setGain(3);
    expect(audio.gain.gain.value).toBe(1);
  });
});

describe('the sound of a click', () => {
  it.each([1760, 1175, 880])(
    'at %s Hz begins at once, stays in bounds and has died away at its end',
    (hz) => {
      const samples = clickSamples(48_000, hz);
      const peak = Math.max(...samples.map(Math.abs));
      expect(samples).toHaveLength(1920);
      expect(Math.abs(samples[0])).toBeGreaterThan(0.05);
      expect(peak).toBeLessThanOrEqual(1);
      expect(Math.abs(samples[1919])).toBeLessThan(0.002 * peak);
    },
  );

  it('crosses nought as often as its pitch asks: twice a period, 35 times in 10 ms of 1760 Hz', () => {
    const samples = clickSamples(48_000, 1760).slice(0, 480);
    const crossings = samples.slice(1).filter((value, i) => value < 0 !== samples[i] < 0).length;
    expect(Math.abs(crossings - 35)).toBeLessThanOrEqual(1);
  });
});
