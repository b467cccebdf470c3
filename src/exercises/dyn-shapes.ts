/** Dynamics of a bar by name, for any number of beats in it. */
interface DynShape {
  readonly name: string;
  /** The dyn line. */
  readonly line: (beatsPerBar: number) => string;
}

/** Shapes that drummers practise; common practice, no source. */
export const dynShapes: readonly DynShape[] = [
  { name: 'louder through the bar', line: (beats) => through(beats, 'p', '<', 'f') },
  { name: 'softer through the bar', line: (beats) => through(beats, 'f', '>', 'p') },
  { name: 'soft throughout', line: () => 'p' },
  { name: 'half loud throughout', line: () => 'mf' },
];

function through(beats: number, from: string, hairpin: string, to: string): string {
  return beats < 2 ? from : [from, ...Array.from({ length: beats - 2 }, () => hairpin), to].join(' ');
}
