import { power } from '../exact';
import type { Db } from '../units';
import { bassDrumSound, hihatFootSound, snareSound, type Sound } from './drum-sound';
import {
  crashSound,
  floorTomSound,
  highTomSound,
  hihatSound,
  lowTomSound,
  openHihatSound,
  rideSound,
  sideStickSound,
  tomSound,
} from './kit-sound';
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

/** What the surfaces of the voicings sound like; others sound like the snare. */
const SOUND_OF_SURFACE: ReadonlyMap<string, Sound> = new Map([
  ['bass drum', bassDrumSound],
  ['side stick', sideStickSound],
  ['hi-hat', hihatSound],
  ['hi-hat foot', hihatFootSound],
  ['open hi-hat', openHihatSound],
  ['floor tom', floorTomSound],
  ['low tom', lowTomSound],
  ['tom', tomSound],
  ['high tom', highTomSound],
  ['crash', crashSound],
  ['ride', rideSound],
  ['ride bell', rideSound],
]);

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
    handOver<HeardNote>(timing, (note) => channel.play(soundOf(note), note.atMs, amplitudeOf(note.levelDb)), {
      eachTick: () => out.measure(),
      extraMs: () => out.delayMs(),
      onEnd,
    }),
  );
  return {
    start(heard, firstBeatMs) {
      this.stop();
      out.begin();
      ahead.start(heard, firstBeatMs);
    },
    stop() {
      ahead.stop();
      channel.silence();
    },
  };
}

const soundOf = ({ by, surface }: HeardNote): Sound =>
  (surface === undefined ? undefined : SOUND_OF_SURFACE.get(surface)) ?? SOUNDS[by];

/** Factor on the amplitude: −20 dB is a tenth. */
const amplitudeOf = (levelDb: Db): number => power(10, levelDb / 20);
