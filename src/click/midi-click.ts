import { plainClick, type VoiceSound } from '../exercises/click-plan';
import { velocityOfLevel, type Ms } from '../units';
import { lookAhead } from './look-ahead';
import type { Click, Timing } from './types';
import { pageTiming } from './web-audio';

export const DRUM_CHANNEL = 10;

/** How a note gets to an output, `atMs` on the performance clock. */
export type SendNote = (channel: number, note: number, velocity: number, atMs: Ms) => void;

/**
 * The click as notes on a MIDI output, for a player whose headphones are in the kit's module:
 * `midiClick((...note) => gateway.send(outputName, ...note))`. Each note is sent ahead with its time.
 * A module that sends back what it receives would make strokes of it: choose a note that no surface owns.
 */
export function midiClick(send: SendNote, timing: Timing = pageTiming, channel = DRUM_CHANNEL): Click {
  let voices = plainClick.voices;
  const ahead = lookAhead(timing, ({ atMs, voice }) => {
    const velocity = velocityOf(voices[voice]);
    if (velocity !== undefined) send(channel, voices[voice].note, velocity, atMs);
  });
  return {
    start(grid, downbeatMs, order) {
      voices = (order?.plan ?? plainClick).voices;
      ahead.start(grid, downbeatMs, order);
    },
    stop: () => ahead.stop(),
  };
}

/** Velocity of a voice's level; undefined for silence. */
function velocityOf({ levelDb }: VoiceSound): number | undefined {
  return levelDb === null ? undefined : Math.max(1, Math.round(velocityOfLevel(levelDb)));
}
