import type { Sound } from './drum-sound';
import { lookAhead } from './look-ahead';
import { clickSamples } from './sound';
import type { Click } from './types';
import { audioOut, pageTiming, type AudioOut } from './web-audio';

/** The click through the computer's own sound. */
export interface AudioClick extends Click {
  /** Lets the page sound: see {@link AudioOut}. */
  wake(): Promise<void>;
  /** Loudness from 0 (silent) to 1; takes effect at once. The click goes on counting while silent. */
  setGain(gain: number): void;
}

const accentSound: Sound = (sampleRate) => clickSamples(sampleRate, true);
const beatSound: Sound = (sampleRate) => clickSamples(sampleRate, false);

/** A click in Web Audio, each beat heard at its time on the performance clock. */
export function audioClick(out: AudioOut = audioOut()): AudioClick {
  const channel = out.channel();
  const ahead = lookAhead(
    pageTiming,
    ({ atMs, accent }) => channel.play(accent ? accentSound : beatSound, atMs),
    { eachTick: () => out.measure(), extraMs: () => out.delayMs() },
  );
  return {
    wake: () => out.wake(),
    start(grid, downbeatMs) {
      this.stop();
      out.begin();
      ahead.start(grid, downbeatMs);
    },
    stop() {
      ahead.stop();
      channel.silence();
    },
    setGain: (gain) => channel.setGain(gain),
  };
}
