import { surfaceNotes, surfaceOfNote } from '../../exercises/voicings';
import type { Note, Phrase } from '../../exercises/types';
import type { FootStroke } from '../../exercises/feet';

/** Where on the staff a surface's notes stand, with what head, and which General MIDI note they sound. */
export interface Place {
  readonly name: string;
  readonly step: string;
  readonly octave: number;
  readonly head: 'normal' | 'x';
  /** MIDI note, from 0. */
  readonly note: number;
}

/** Positions of drum-set notation; common practice, from memory. As if in treble clef: C5 is the third space. */
const POSITIONS: Readonly<Record<string, readonly [step: string, octave: number, head: Place['head']]>> = {
  'bass drum': ['F', 4, 'normal'],
  'side stick': ['C', 5, 'x'],
  snare: ['C', 5, 'normal'],
  'hi-hat': ['G', 5, 'x'],
  'floor tom': ['A', 4, 'normal'],
  'hi-hat foot': ['D', 4, 'x'],
  'low tom': ['B', 4, 'normal'],
  'open hi-hat': ['G', 5, 'x'],
  tom: ['D', 5, 'normal'],
  crash: ['A', 5, 'x'],
  'high tom': ['E', 5, 'normal'],
  ride: ['F', 5, 'x'],
  'ride bell': ['F', 5, 'x'],
};

/** The place of a hand's note: that of the voicing where it names a surface known here, else the snare's. */
export function placeOfNote(phrase: Phrase, note: Note): Place {
  return placeNamed(surfaceOfNote(phrase.voicing ?? {}, note) ?? 'snare');
}

export const placeOfFoot = ({ foot }: FootStroke): Place =>
  placeNamed(foot === 'K' ? 'bass drum' : 'hi-hat foot');

function placeNamed(name: string): Place {
  const known = Object.hasOwn(POSITIONS, name) && Object.hasOwn(surfaceNotes, name) ? name : 'snare';
  const [step, octave, head] = POSITIONS[known];
  return { name: known, step, octave, head, note: surfaceNotes[known] };
}
