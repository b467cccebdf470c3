import type { Ms } from '../units';
import { lookAhead } from './look-ahead';
import type { Click, Timing } from './types';
import { pageTiming } from './web-audio';

/** General MIDI percussion, level 1 key map: side stick on channel 10; a drum module has a sound for it. */
export const SIDE_STICK = 37;
export const DRUM_CHANNEL = 10;
const ACCENT_VELOCITY = 120;
const BEAT_VELOCITY = 80;

/** How a note gets to an output, `atMs` on the performance clock. */
export type SendNote = (channel: number, note: number, velocity: number, atMs: Ms) => void;

/**
 * The click as notes on a MIDI output, for a player whose headphones are in the kit's module:
 * `midiClick((...note) => door.send(outputName, ...note))`. Each note is sent ahead with its time.
 * A module that sends back what it receives would make strokes of it: choose a note that no surface owns.
 */
export function midiClick(
  send: SendNote,
  timing: Timing = pageTiming,
  note = SIDE_STICK,
  channel = DRUM_CHANNEL,
): Click {
  return lookAhead(timing, ({ atMs, accent }) => {
    send(channel, note, accent ? ACCENT_VELOCITY : BEAT_VELOCITY, atMs);
  });
}
