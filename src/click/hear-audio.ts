import { power } from '../exact';
import type { Db } from '../units';
import { bassDrumSound, hihatFootSound, snareSound, type Sound } from './drum-sound';
import type { HeardNote } from './hear';
import { player, type HearPlayer } from './hear-player';
import { handOver } from './look-ahead';
import type { Timing } from './types';
import { pageTiming, type AudioOut } from './web-audio';

const SOUNDS: Readonly<Record<HeardNote['by'], Sound>> = {
  R: snareSound,
  L: snareSound,
  K: bassDrumSound,
  H: hihatFootSound,
};

/**
 * A phrase through the computer's own sound, computed, without samples. Call `out.wake()` first thing in the handler.
 * @param onEnd called when the last note's time has come
 */
export function audioPlayer(
  out: AudioOut,
  onEnd: () => void = () => undefined,
  timing: Timing = pageTiming,
): HearPlayer {
  const channel = out.channel();
  const ahead = player(
    timing,
    handOver<HeardNote>(
      timing,
      ({ by, levelDb, atMs }) => channel.play(SOUNDS[by], atMs, amplitudeOf(levelDb)),
      {
        eachTick: () => out.measure(),
        extraMs: () => out.delayMs(),
        onEnd,
      },
    ),
  );
  return {
    start(heard) {
      this.stop();
      out.begin();
      ahead.start(heard);
    },
    stop() {
      ahead.stop();
      channel.silence();
    },
  };
}

/** Factor on the amplitude: −20 dB is a tenth. */
const amplitudeOf = (levelDb: Db): number => power(10, levelDb / 20);
