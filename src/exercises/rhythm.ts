/** A note or rest as it is written: where in its beat it begins and how many partials it takes. */
export interface Written {
  readonly at: number;
  readonly partials: number;
  readonly sounds: boolean;
  /** Name of its note value in MusicXML. */
  readonly type: string;
  /** Flags or beams: none on a quarter, one on an eighth. */
  readonly flags: number;
  /** `actual` in the time of `normal`; undefined where the value is plain. */
  readonly tuplet: { readonly actual: number; readonly normal: number } | undefined;
}

const TYPES = ['quarter', 'eighth', '16th', '32nd', '64th'];

/**
 * A beat, which is a quarter, as notes and rests. A beat with a note at its start and no other, or with none, is one
 * quarter. Else, where the partials halve and halve again, a note is held (and a rest joined) as far as the next note or
 * as its value may go from where it stands; in a tuplet every partial is written out.
 * @param sounds whether a note begins on each partial
 * @example rhythmOf([true, false, true, true]).map((one) => one.type) // => ['eighth', '16th', '16th']
 */
export function rhythmOf(sounds: readonly boolean[]): readonly Written[] {
  const count = sounds.length;
  const levels = Math.clz32(1) - Math.clz32(count);
  const plain = 1 << levels;
  const tuplet = plain === count ? undefined : { actual: count, normal: plain };
  if (!sounds.slice(1).includes(true)) {
    return [{ at: 0, partials: count, sounds: sounds[0], type: TYPES[0], flags: 0, tuplet: undefined }];
  }
  const written: Written[] = [];
  for (let at = 0; at < count;) {
    const next = sounds.indexOf(true, at + 1);
    const room = (next < 0 ? count : next) - at;
    let halvings = levels;
    if (tuplet === undefined) {
      while (halvings > 0 && at % (count >> (halvings - 1)) === 0 && count >> (halvings - 1) <= room)
        halvings -= 1;
    }
    const partials = tuplet === undefined ? count >> halvings : 1;
    written.push({ at, partials, sounds: sounds[at], type: TYPES[halvings], flags: halvings, tuplet });
    at += partials;
  }
  return written;
}

export type Beam = 'begin' | 'continue' | 'end' | 'forward hook' | 'backward hook';

/**
 * Beams of the notes of a beat, outermost first; none for a rest, a quarter, or a note with no neighbour to share a beam
 * with. A rest ends a beam.
 * @example beamsOf(rhythmOf([true, false, true, true])) // => [['begin'], ['continue', 'begin'], ['end', 'end']]
 */
export function beamsOf(beat: readonly Written[]): readonly (readonly Beam[])[] {
  const flagsAt = (index: number): number => {
    const one = beat.at(index);
    return index >= 0 && index < beat.length && one?.sounds === true ? one.flags : 0;
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
