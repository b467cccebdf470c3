import { InputError } from '../errors';
import { writtenSpan, type WrittenNote, type WrittenTuplet } from './rhythm';

/** A note or rest of a beat as paper and notation files write it: its value, its flags, its tuplet. */
export interface BeatNote extends WrittenNote {
  /** Flags or beams: none on a quarter, one on an eighth. */
  readonly flags: number;
  /** The tuplet it belongs to, and whether it is that one's first or last note. */
  readonly tuplet: (WrittenTuplet & { readonly opens: boolean; readonly closes: boolean }) | undefined;
}

/**
 * The notes and rests of a beat, which is a quarter: `writtenSpan` with what belongs to each note beside it.
 * @param struck for each partial whether a stroke falls on it
 * @throws InputError where a partial would be shorter than a sixty-fourth
 * @example beatNotes([true, false, true, true]).map((note) => note.flags) // => [1, 2, 2]
 */
export function beatNotes(struck: readonly boolean[]): readonly BeatNote[] {
  const span = writtenSpan(struck);
  if (span === undefined) {
    throw new InputError('partialsPerBeat', 'must be writable in sixty-fourths', struck.length);
  }
  return span.notes.map((note, index): BeatNote => {
    const found = span.tuplets.find(({ first, notes }) => index >= first && index < first + notes);
    const tuplet = found && {
      ...found,
      opens: index === found.first,
      closes: index === found.first + found.notes - 1,
    };
    return { ...note, flags: Math.clz32(4) - Math.clz32(note.value), tuplet };
  });
}

export type Beam = 'begin' | 'continue' | 'end' | 'forward hook' | 'backward hook';

/**
 * Beams of the notes of a beat, outermost first; none for a rest, a quarter, or a note with no neighbour to share a beam
 * with. A rest ends a beam.
 * @example beamsOf(beatNotes([true, false, true, true])) // => [['begin'], ['continue', 'begin'], ['end', 'end']]
 */
export function beamsOf(beat: readonly Pick<BeatNote, 'flags' | 'rest'>[]): readonly (readonly Beam[])[] {
  const flagsAt = (index: number): number => {
    const one = beat.at(index);
    return index >= 0 && index < beat.length && one?.rest === false ? one.flags : 0;
  };
  return beat.map((_, index) => {
    const before = flagsAt(index - 1);
    const after = flagsAt(index + 1);
    if (before === 0 && after === 0) return [];
    return Array.from({ length: flagsAt(index) }, (__, level): Beam => {
      if (before > level) return after > level ? 'continue' : 'end';
      if (after > level) return 'begin';
      return before > 0 ? 'backward hook' : 'forward hook';
    });
  });
}
