import { phraseNamed } from '../exercises/phrase';
import { checkedBpm } from '../exercises/tempo';
import { takeFromMidi, type MidiImport } from '../midi/standard-midi-file';
import { readTake } from '../sessions/take';
import type { Take } from '../sessions/types';
import { onBehalfOf, readBytes, STDIN, wholeNumber } from './io';
import { UsageError } from './usage';

/** What the user may say of a MIDI file that does not carry its phrase. */
export const foreignOptions = {
  phrase: { type: 'string' },
  sticking: { type: 'string' },
  partials: { type: 'string' },
  bpm: { type: 'string' },
  notes: { type: 'string' },
  right: { type: 'string' },
  left: { type: 'string' },
  free: { type: 'boolean' },
} as const;

type ForeignValues = { readonly [Key in keyof typeof foreignOptions]?: string | boolean };
type Foreign = Omit<MidiImport, 'fileName'>;

/**
 * The options as what is known of a foreign file.
 * @throws UsageError for options that do not go together, InputError for a value that is none
 */
export function foreignOf(values: ForeignValues): Foreign {
  const { phrase, sticking, partials, bpm, notes, right, left, free } = values;
  if (phrase !== undefined && sticking !== undefined)
    throw new UsageError('--phrase or --sticking, not both');
  if (sticking !== undefined && partials === undefined) throw new UsageError('--sticking wants --partials');
  return {
    ...(typeof phrase === 'string' ? { phrase: phraseNamed(phrase) } : {}),
    ...(typeof sticking === 'string' ? { sticking } : {}),
    ...(typeof partials === 'string' ? { partialsPerBeat: wholeNumber('--partials', partials, 1, 16) } : {}),
    ...(typeof bpm === 'string' ? { bpm: checkedBpm(Number(bpm), '--bpm') } : {}),
    ...(typeof notes === 'string' ? { notes: notesOf('--notes', notes) } : {}),
    ...(typeof right === 'string' ? { right: notesOf('--right', right) } : {}),
    ...(free === true ? { free } : {}),
    ...(typeof left === 'string' ? { left: notesOf('--left', left) } : {}),
  };
}

/**
 * A take from a file, by its ending: `.mid` or `.midi`, else `.take.json`.
 * @throws InputError naming the file
 */
export function takeOf(file: string, foreign: Foreign = {}): Take {
  const bytes = readBytes(file);
  if (isMidi(file, bytes)) {
    return onBehalfOf(file, () => takeFromMidi(bytes, { fileName: file, ...foreign }));
  }
  return onBehalfOf(file, () => readTake(new TextDecoder().decode(bytes)));
}

/** By its ending; standard input by how it begins. */
export function isMidi(file: string, bytes: Uint8Array): boolean {
  if (file !== STDIN) return /\.midi?$/i.test(file);
  return new TextDecoder('latin1').decode(bytes.subarray(0, 4)) === 'MThd';
}

function notesOf(place: string, text: string): number[] {
  return text.split(',').map((note) => wholeNumber(place, note, 0, 127));
}
