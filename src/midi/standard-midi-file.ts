import { parseMidi, type MidiEvent } from 'midi-file';
import { InputError } from '../errors';
import type { Phrase, Tempo } from '../exercises/types';
import type { Rig, Take } from '../sessions/types';
import { contentsOf } from './smf/contents';
import { encodedFile } from './smf/encoded';
import { importedTake, type MidiImport } from './smf/imported-take';
import { soundFile } from './smf/sound-file';
import { TICKS_A_BEAT } from './smf/target';
import type { MidiContents, SmfEvent } from './smf/types';
import { textOfBytes } from './smf/utf8';
import { phraseTracks, takeTracks } from './smf/written';

export type { MidiImport } from './smf/imported-take';

/**
 * A phrase as a Standard MIDI File, format 1, 960 ticks a quarter: a track with its title, tempo (the whole ramp) and
 * time signatures, and the track "Target" with the strokes, the sticking as lyrics and a text that carries the phrase.
 * Accents have velocity 101, taps 40, ghosts 28, graces 30 (30 ms before their note); `dyn` lines do not change them.
 * @param rig whose surfaces the hands play; without one both play note 38 on channel 10
 * @throws InputError for a bar or a feet line that does not parse
 */
export function writePhraseMidi(phrase: Phrase, tempo: Tempo, rig?: Rig): Uint8Array {
  return encodedFile(TICKS_A_BEAT, phraseTracks(phrase, tempo, rig));
}

/**
 * A take as a Standard MIDI File: the same, and a track "Played" a port with the raw hits at their velocities. A hit's
 * time comes back within half a tick. What a take holds beside its phrase and hits is carried in the text as well.
 * @throws InputError as {@link writePhraseMidi}
 */
export function writeTakeMidi(take: Take): Uint8Array {
  return encodedFile(TICKS_A_BEAT, takeTracks(take));
}

/**
 * What a Standard MIDI File holds: formats 0 and 1, ticks a quarter, tempo maps, running status.
 * @throws InputError at the byte for a file that is cut off or malformed, in SMPTE time or of format 2
 */
export function readMidi(bytes: Uint8Array): MidiContents {
  const { header, tracks } = parsed(soundFile(bytes));
  return contentsOf(header.format === 0 ? 0 : 1, header.ticksPerBeat ?? TICKS_A_BEAT, tracks.map(eventsOf));
}

/**
 * A take from a MIDI file: by the phrase it carries, or by the one the user names. See {@link MidiImport}.
 * @throws InputError as {@link readMidi}, and where the phrase, the tempo or the strokes are wanting
 */
export function takeFromMidi(bytes: Uint8Array, how: MidiImport): Take {
  return importedTake(readMidi(bytes), how, idOf(bytes));
}

function parsed(bytes: Uint8Array): ReturnType<typeof parseMidi> {
  try {
    return parseMidi(bytes);
  } catch (error) {
    throw new InputError('file', 'must be a sound MIDI file', undefined, String(error));
  }
}

function eventsOf(track: readonly MidiEvent[]): SmfEvent[] {
  let tick = 0;
  return track.flatMap((event): SmfEvent[] => {
    tick += event.deltaTime;
    switch (event.type) {
      case 'trackName':
        return [{ kind: 'name', tick, text: textOfBytes(event.text) }];
      case 'instrumentName':
        return [{ kind: 'port', tick, text: textOfBytes(event.text) }];
      case 'text':
        return [{ kind: 'text', tick, text: textOfBytes(event.text) }];
      case 'lyrics':
        return [{ kind: 'lyric', tick, text: textOfBytes(event.text) }];
      case 'setTempo':
        return [{ kind: 'tempo', tick, usPerQuarter: event.microsecondsPerBeat }];
      case 'timeSignature':
        return [{ kind: 'meter', tick, beats: event.numerator, unit: event.denominator }];
      case 'noteOn':
        return [
          { kind: 'on', tick, channel: event.channel + 1, note: event.noteNumber, velocity: event.velocity },
        ];
      case 'noteOff':
        return [{ kind: 'off', tick, channel: event.channel + 1, note: event.noteNumber }];
      default:
        return [];
    }
  });
}

/** The same file has the same id: 32 bits of FNV-1a over its bytes. */
function idOf(bytes: Uint8Array): string {
  let hash = 0x811c9dc5;
  for (const byte of bytes) hash = Math.imul(hash ^ byte, 0x01000193);
  return `midi-${(hash >>> 0).toString(16).padStart(8, '0')}`;
}
