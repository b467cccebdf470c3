import { InputError } from '../errors';
import type { Phrase } from '../exercises/types';
import type { Report } from '../grading/types';
import { takeFromMidi } from '../midi/standard-midi-file';
import { libraryFrom } from '../sessions/library';
import { phraseFileFrom, type PhraseFile } from '../sessions/phrase-file';
import { parsedJson } from '../sessions/read-json';
import { returnedFrom, type ReturnedTakes } from '../sessions/returned-takes';
import { rigFileFrom, type RigFile } from '../sessions/rig-file';
import { takeFrom } from '../sessions/take';
import type { Take } from '../sessions/types';
import { weekSheetFrom, type WeekSheet } from '../sessions/week-sheet';
import type { Bpm } from '../units';
import { gradeTake } from './grade-take';

/** What is in a file, read and checked; a take graded, too, where it can be. */
export type FileRead =
  | {
      readonly kind: 'take';
      readonly take: Take;
      readonly report: Report | null;
      /** True for a MIDI file without a phrase of its own: it is read by the chosen one. */
      readonly byChosen: boolean;
    }
  | { readonly kind: 'phrase'; readonly phrase: PhraseFile }
  | { readonly kind: 'rig'; readonly rig: RigFile['rig'] }
  | { readonly kind: 'week sheet'; readonly sheet: WeekSheet }
  | ({ readonly kind: 'takes' } & ReturnedTakes)
  | ({ readonly kind: 'library' } & ReturnType<typeof libraryFrom>);

/** What is known of a file beside its bytes. */
export interface FileFacts {
  readonly fileName: string;
  /** ISO 8601: when it was last changed. */
  readonly recordedAt: string;
  /** What a MIDI file that carries no phrase is read by. */
  readonly chosen: { readonly phrase: Phrase; readonly bpm: Bpm };
}

/** The first bytes of a Standard MIDI File: "MThd". */
const MIDI_HEADER = [0x4d, 0x54, 0x68, 0x64];

/**
 * A file by what is in it, whatever its name.
 * @throws InputError at the place that breaks a rule, or for a format that is none of ours
 */
export function fileRead(bytes: Uint8Array, facts: FileFacts): FileRead {
  if (MIDI_HEADER.every((byte, index) => bytes[index] === byte)) return midiRead(bytes, facts);
  const data = parsedJson(new TextDecoder().decode(bytes));
  switch (formatOf(data)) {
    case 'evenhand-take':
      return graded(takeFrom(data), false);
    case 'evenhand-phrase':
      return { kind: 'phrase', phrase: phraseFileFrom(data) };
    case 'evenhand-rig':
      return { kind: 'rig', rig: rigFileFrom(data).rig };
    case 'evenhand-week':
      return { kind: 'week sheet', sheet: weekSheetFrom(data) };
    case 'evenhand-takes':
      return { kind: 'takes', ...returnedFrom(data) };
    case 'evenhand-library':
      return { kind: 'library', ...libraryFrom(data) };
    default:
      throw new InputError(
        'format',
        'must be that of a take, takes, phrase, rig, week sheet or library',
        formatOf(data) ?? null,
      );
  }
}

/** By the phrase that it carries; a foreign one by the chosen one. */
function midiRead(bytes: Uint8Array, { fileName, recordedAt, chosen }: FileFacts): FileRead {
  const how = { fileName, recordedAt };
  try {
    return graded(takeFromMidi(bytes, how), false);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return graded(takeFromMidi(bytes, { ...how, ...chosen }), true);
  }
}

function graded(take: Take, byChosen: boolean): FileRead {
  try {
    return { kind: 'take', take, report: gradeTake(take), byChosen };
  } catch (error) {
    if (error instanceof InputError) return { kind: 'take', take, report: null, byChosen };
    throw error;
  }
}

function formatOf(data: unknown): unknown {
  return typeof data === 'object' && data !== null && 'format' in data ? data.format : undefined;
}
