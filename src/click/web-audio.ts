import { BehaviorSubject, Subject, type Observable } from 'rxjs';
import type { AudioSeconds, Ms } from '../units';
import { audioSecondsAt, withPair, type AudioClock, type ClockPair } from './clock';
import type { Sound } from './drum-sound';
import type { SoundNow, Timing } from './types';

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

/** A system that has not begun to sound after this long does not. */
const WAITS_MS: Ms = 1000;

/** The computer's own sound, steered to the performance clock. One a page is enough: click and phrase share it. */
export interface AudioOut {
  /**
   * Lets the page sound. Browsers allow it only from a key or a pointer: call it first thing in the handler that
   * starts something. What is to sound need not wait for it. It never fails: where nothing sounds, `now$` says why.
   */
  wake(): Promise<void>;
  /** Wakes without being asked by a handler; may be refused. */
  begin(): void;
  /** Reads both clocks: to be called at every tick while something sounds. */
  measure(): void;
  /** What the system says it adds between an audio time and its being heard. */
  delayMs(): Ms;
  /** That sound stopped or runs again, or the system's devices changed. Nothing before the first `wake` or `begin`. */
  readonly changes$: Observable<'device' | 'stopped' | 'running'>;
  /** Whether anything can be heard, as far as it is known: replays its latest value. */
  readonly now$: Observable<SoundNow>;
  /** A part of the mix with a loudness of its own, which can be silenced alone. */
  channel(): AudioChannel;
}

interface AudioChannel {
  /**
   * Sounds at a performance time: it gets the audio time that is *heard* then, from readings of both clocks, so what
   * the system says of its own delay is in it. Skipped rather than late.
   * @param gain factor on the sound's amplitude
   */
  play(sound: Sound, atMs: Ms, gain?: number): void;
  /** Takes back what waits and cuts what sounds. */
  silence(): void;
  /** Loudness from 0 (silent) to 1; takes effect at once. */
  setGain(gain: number): void;
}

/** @param open makes the AudioContext, at the first `wake` or `begin` */
// eslint-disable-next-line max-lines-per-function -- one context, woken, watched and closed here: what is done with it shares its state
export function audioOut(open: () => AudioContext = () => new AudioContext()): AudioOut {
  let context: AudioContext | null = null;
  let clock: AudioClock | null = null;
  const buffers = new Map<Sound, AudioBuffer>();
  const changes$ = new Subject<'device' | 'stopped' | 'running'>();
  const now$ = new BehaviorSubject<SoundNow>('unknown');
  const whenOpened: ((made: AudioContext) => void)[] = [];

  /** Null where the system has no sound to give. */
  function opened(): AudioContext | null {
    if (context !== null) return context;
    let made: AudioContext;
    try {
      made = open();
    } catch {
      now$.next('no device');
      return null;
    }
    context = made;
    for (const tell of whenOpened) tell(made);
    made.addEventListener('statechange', () => {
      // The audio clock stood still while suspended: what was measured before says nothing now.
      clock = null;
      changes$.next(made.state === 'running' ? 'running' : 'stopped');
      void look(made);
    });
    // Not there on every page. The new device has a delay of its own.
    (globalThis.navigator as Partial<Navigator> | undefined)?.mediaDevices?.addEventListener(
      'devicechange',
      () => {
        clock = null;
        changes$.next('device');
        void look(made);
      },
    );
    return made;
  }

  async function look(audio: AudioContext): Promise<void> {
    now$.next(audio.state !== 'running' ? 'held back' : (await hasDevice()) ? 'sounds' : 'no device');
  }

  function bufferOf(sound: Sound, audio: AudioContext): AudioBuffer {
    const known = buffers.get(sound);
    if (known !== undefined) return known;
    const samples = sound(audio.sampleRate);
    const buffer = audio.createBuffer(1, samples.length, audio.sampleRate);
    buffer.copyToChannel(samples, 0);
    buffers.set(sound, buffer);
    return buffer;
  }

  function channel(): AudioChannel {
    let loudness = 1;
    let output: GainNode | null = null;
    const waiting = new Set<AudioBufferSourceNode>();
    const connect = (audio: AudioContext): void => {
      output = audio.createGain();
      output.gain.value = loudness;
      output.connect(audio.destination);
    };
    if (context === null) whenOpened.push(connect);
    else connect(context);
    return {
      play(sound, atMs, gain = 1) {
        if (context === null || output === null || clock === null) return;
        const at = audioSecondsAt(clock, atMs);
        if (at < context.currentTime) return;
        const source = context.createBufferSource();
        source.buffer = bufferOf(sound, context);
        source.connect(gain === 1 ? output : attenuated(context, gain, output));
        source.addEventListener('ended', () => {
          waiting.delete(source);
          source.disconnect();
        });
        waiting.add(source);
        source.start(at);
      },
      silence() {
        for (const source of waiting) source.stop();
        waiting.clear();
      },
      setGain(next) {
        loudness = Math.min(1, Math.max(0, next));
        if (output !== null) output.gain.value = loudness;
      },
    };
  }

  return {
    channel,
    changes$: changes$.asObservable(),
    now$: now$.asObservable(),
    async wake() {
      const audio = opened();
      if (audio === null) return;
      await resumed(audio);
      await look(audio);
    },
    begin() {
      const audio = opened();
      if (audio?.state === 'suspended') void resumed(audio).then(() => look(audio));
    },
    measure() {
      if (context?.state !== 'running') return;
      const pair = readClocks(context);
      if (pair !== undefined) clock = withPair(clock, pair);
    },
    delayMs: () => (context === null ? 0 : delayMs(context)),
  };
}

/** A browser may refuse, or leave the question open for ever. */
async function resumed(audio: AudioContext): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const waited = new Promise<void>((done) => (timer = setTimeout(done, WAITS_MS)));
  await Promise.race([audio.resume().catch(() => undefined), waited]);
  clearTimeout(timer);
}

/**
 * Whether there is anything to hear it by. A browser sounds into nothing without a word; only one that lists outputs without
 * being asked for a microphone (it can choose one: `setSinkId`) can say that there is none.
 */
async function hasDevice(): Promise<boolean> {
  const devices = (globalThis.navigator as Partial<Navigator> | undefined)?.mediaDevices;
  const lists = typeof AudioContext !== 'undefined' && 'setSinkId' in AudioContext.prototype;
  if (devices === undefined || !lists) return true;
  try {
    return (await devices.enumerateDevices()).some(({ kind }) => kind === 'audiooutput');
  } catch {
    return true;
  }
}

function attenuated(context: AudioContext, gain: number, output: AudioNode): GainNode {
  const node = context.createGain();
  node.gain.value = gain;
  node.connect(output);
  return node;
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
