/** The lowest note of the General MIDI level 1 percussion key map. */
const FIRST_NOTE = 35;

/**
 * Names of the notes 35–81 on channel 10, in order. Source: General MIDI level 1, percussion key map. Compare numbers,
 * never note names: octaves are counted in several ways.
 */
const names: readonly string[] = [
  'Acoustic Bass Drum',
  'Bass Drum 1',
  'Side Stick',
  'Acoustic Snare',
  'Hand Clap',
  'Electric Snare',
  'Low Floor Tom',
  'Closed Hi-Hat',
  'High Floor Tom',
  'Pedal Hi-Hat',
  'Low Tom',
  'Open Hi-Hat',
  'Low-Mid Tom',
  'Hi-Mid Tom',
  'Crash Cymbal 1',
  'High Tom',
  'Ride Cymbal 1',
  'Chinese Cymbal',
  'Ride Bell',
  'Tambourine',
  'Splash Cymbal',
  'Cowbell',
  'Crash Cymbal 2',
  'Vibraslap',
  'Ride Cymbal 2',
  'Hi Bongo',
  'Low Bongo',
  'Mute Hi Conga',
  'Open Hi Conga',
  'Low Conga',
  'High Timbale',
  'Low Timbale',
  'High Agogo',
  'Low Agogo',
  'Cabasa',
  'Maracas',
  'Short Whistle',
  'Long Whistle',
  'Short Guiro',
  'Long Guiro',
  'Claves',
  'Hi Wood Block',
  'Low Wood Block',
  'Mute Cuica',
  'Open Cuica',
  'Mute Triangle',
  'Open Triangle',
];

/** Notes that are one thing to a drummer, struck in several places or ways, with the name it goes by. */
const together: readonly {
  readonly name: string;
  readonly notes: readonly number[];
  readonly foot?: 'K' | 'H';
}[] = [
  { name: 'Bass drum', notes: [35, 36], foot: 'K' },
  { name: 'Snare', notes: [37, 38, 40] },
  { name: 'Hi-hat', notes: [42, 46] },
  { name: 'Hi-hat foot', notes: [44], foot: 'H' },
  { name: 'Ride', notes: [51, 53, 59] },
];

/** What a note is likely to be. */
interface Suggested {
  readonly name: string;
  /** Where a foot is likely to play it. */
  readonly foot: 'K' | 'H' | null;
}

/**
 * The name of a note in the General MIDI percussion map.
 * @returns undefined outside 35–81
 * @example gmPercussionName(38) // => 'Acoustic Snare'
 * @example gmPercussionName(34) // => undefined
 */
export function gmPercussionName(note: number): string | undefined {
  return names[note - FIRST_NOTE];
}

/**
 * What to call the surface that a note belongs to. Common practice for the notes that belong together.
 * @example suggestedFor(46) // => { name: 'Hi-hat', foot: null }
 * @example suggestedFor(36) // => { name: 'Bass drum', foot: 'K' }
 * @example suggestedFor(20) // => { name: 'Note 20', foot: null }
 */
export function suggestedFor(note: number): Suggested {
  const group = together.find(({ notes }) => notes.includes(note));
  if (group !== undefined) return { name: group.name, foot: group.foot ?? null };
  return { name: gmPercussionName(note) ?? `Note ${note}`, foot: null };
}
