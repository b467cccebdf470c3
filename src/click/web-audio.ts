import type { AudioSeconds, Ms } from '../units';
import { audioSecondsAt, withPair, type AudioClock, type ClockPair } from './clock';
import { lookAhead } from './look-ahead';
import { clickSamples } from './sound';
import type { Click, ClickBeat, Timing } from './types';

/** The clock of the page. */
export const pageTiming: Timing = {
  nowMs: () => performance.now(),
  every(ms, tick) {
    const timer = setInterval(tick, ms);
    return () => {
      clearInterval(timer);
    };
  },
};

/** The click through the computer's own sound. */
export interface AudioClick extends Click {
  /**
   * Lets the page sound. Browsers allow it only from a key or a pointer: call it first thing in the handler that
   * starts a take. The downbeat need not wait for it.
   */
  wake(): Promise<void>;
  /** Loudness from 0 (silent) to 1; takes effect at once. The click goes on counting while silent. */
  setGain(gain: number): void;
}

/**
 * A click in Web Audio, steered to the performance clock: each click gets the audio time that is *heard* at its
 * beat, from readings of both clocks taken at every tick, so what the system says of its own delay is in it.
 * Skipped rather than late: a click whose audio time is past. One a page is enough.
 * @param open makes the AudioContext, at the first `wake` or `start`
 */
export function audioClick(open: () => AudioContext = () => new AudioContext()): AudioClick {
  let context: AudioContext | null = null;
  let output: GainNode | null = null;
  let gain = 1;
  let clock: AudioClock | null = null;
  let sounds: { readonly accent: AudioBuffer; readonly beat: AudioBuffer } | null = null;
  const waiting = new Set<AudioBufferSourceNode>();

  function opened(): AudioContext {
    if (context !== null) return context;
    const made = open();
    context = made;
    output = made.createGain();
    output.gain.value = gain;
    output.connect(made.destination);
    sounds = { accent: soundIn(made, true), beat: soundIn(made, false) };
    made.addEventListener('statechange', () => {
      // The audio clock stood still while suspended: what was measured before says nothing now.
      clock = null;
    });
    return made;
  }

  function measure(): void {
    if (context?.state !== 'running') return;
    const pair = readClocks(context);
    if (pair !== undefined) clock = withPair(clock, pair);
  }

  function play({ atMs, accent }: ClickBeat): void {
    if (context === null || output === null || sounds === null || clock === null) return;
    const at = audioSecondsAt(clock, atMs);
    if (at < context.currentTime) return;
    const source = context.createBufferSource();
    source.buffer = accent ? sounds.accent : sounds.beat;
    source.connect(output);
    source.addEventListener('ended', () => {
      waiting.delete(source);
      source.disconnect();
    });
    waiting.add(source);
    source.start(at);
  }

  const ahead = lookAhead(pageTiming, play, measure, () => (context === null ? 0 : delayMs(context)));

  return {
    async wake() {
      await opened().resume();
    },
    start(grid, downbeatMs) {
      this.stop();
      const audio = opened();
      if (audio.state === 'suspended') void audio.resume();
      ahead.start(grid, downbeatMs);
    },
    stop() {
      ahead.stop();
      for (const source of waiting) source.stop();
      waiting.clear();
    },
    setGain(next) {
      gain = Math.min(1, Math.max(0, next));
      if (output !== null) output.gain.value = gain;
    },
  };
}

function soundIn(context: AudioContext, accent: boolean): AudioBuffer {
  const samples = clickSamples(context.sampleRate, accent);
  const buffer = context.createBuffer(1, samples.length, context.sampleRate);
  buffer.copyToChannel(samples, 0);
  return buffer;
}

/** Both clocks at one moment; undefined before the first sample was heard. */
function readClocks(context: AudioContext): ClockPair | undefined {
  // Older browsers lack the reading; there the running clock less the stated delay must do.
  if (typeof context.getOutputTimestamp !== 'function') {
    const heard: AudioSeconds = context.currentTime - delayMs(context) / 1000;
    return { performanceMs: performance.now(), audioSeconds: heard };
  }
  const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp();
  return contextTime > 0 ? { performanceMs: performanceTime, audioSeconds: contextTime } : undefined;
}

function delayMs(context: AudioContext): Ms {
  return 1000 * ((context.baseLatency || 0) + (context.outputLatency || 0));
}
