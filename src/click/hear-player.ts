import { surfaceNotes } from '../exercises/voicings';
import type { Ms, Velocity } from '../units';
import { velocityOfLevel } from '../units';
import type { Heard, HeardNote } from './hear';
import { handOver } from './look-ahead';
import { DRUM_CHANNEL, type SendNote } from './midi-click';
import type { Timing } from './types';
import { pageTiming } from './web-audio';

/** Sounds a phrase, by whatever means. */
export interface HearPlayer {
  /**
   * Begins; what still sounded is stopped.
   * @param firstBeatMs when its first beat is, on the page's clock; default: a moment from now
   */
  start(heard: Heard, firstBeatMs?: Ms): void;
  stop(): void;
}

/** Space for a grace before the first beat, and for the output to be ready. */
export const START_MS: Ms = 200;

/** The note a kit has for each limb: its channel (1–16) and note. */
type KitNotes = Readonly<Record<HeardNote['by'], { readonly channel: number; readonly note: number }>>;

/** General MIDI percussion, level 1 key map: acoustic snare 38, bass drum 1 36, pedal hi-hat 44. */
const GENERAL_MIDI_NOTES: KitNotes = {
  R: { channel: DRUM_CHANNEL, note: 38 },
  L: { channel: DRUM_CHANNEL, note: 38 },
  K: { channel: DRUM_CHANNEL, note: 36 },
  H: { channel: DRUM_CHANNEL, note: 44 },
};

/**
 * The phrase on the kit itself: `kitPlayer((...note) => gateway.send(outputName, ...note), onEnd)`. Each note is sent a
 * quarter of a second ahead with its time, so up to that much still sounds after a stop. A note that a voicing sends to
 * a surface sounds there, by its General MIDI note.
 * @param onEnd called when the last note's time has come
 */
export function kitPlayer(
  send: SendNote,
  onEnd: () => void = () => undefined,
  kit: KitNotes = GENERAL_MIDI_NOTES,
  timing: Timing = pageTiming,
): HearPlayer {
  const play = ({ by, levelDb, atMs, surface }: HeardNote): void => {
    const note =
      surface !== undefined && Object.hasOwn(surfaceNotes, surface) ? surfaceNotes[surface] : kit[by].note;
    send(kit[by].channel, note, velocityOf(levelDb), atMs);
  };
  return player(timing, handOver(timing, play, { onEnd }));
}

/** A player over what hands the notes over. */
export function player(timing: Timing, ahead: ReturnType<typeof handOver<HeardNote>>): HearPlayer {
  return {
    start({ notes }, startMs = timing.nowMs() + START_MS) {
      ahead.start(notes.map((note) => ({ ...note, atMs: startMs + note.atMs })));
    },
    stop: () => ahead.stop(),
  };
}

const velocityOf = (levelDb: number): Velocity =>
  Math.max(1, Math.min(127, Math.round(velocityOfLevel(levelDb))));
