import { power } from '../exact';
import { plainClick } from '../exercises/click-plan';
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

/** The sound of a pitch: the same one each time, so that it is computed once. */
const sounds = new Map<number, Sound>();
function soundOf(hz: number): Sound {
  const known = sounds.get(hz) ?? ((sampleRate: number) => clickSamples(sampleRate, hz));
  sounds.set(hz, known);
  return known;
}

/** A click in Web Audio, each beat heard at its time on the performance clock. */
export function audioClick(out: AudioOut = audioOut()): AudioClick {
  const channel = out.channel();
  let { voices } = plainClick;
  const ahead = lookAhead(
    pageTiming,
    ({ atMs, voice }) => {
      const { levelDb, hz } = voices[voice];
      if (levelDb !== null) channel.play(soundOf(hz), atMs, power(10, levelDb / 20));
    },
    { eachTick: () => out.measure(), extraMs: () => out.delayMs() },
  );
  return {
    wake: () => out.wake(),
    start(grid, downbeatMs, order) {
      this.stop();
      voices = (order?.plan ?? plainClick).voices;
      out.begin();
      ahead.start(grid, downbeatMs, order);
    },
    stop() {
      ahead.stop();
      channel.silence();
    },
    setGain: (gain) => channel.setGain(gain),
  };
}
