/** A feet line by name, for any subdivision it can be written in. */
interface Ostinato {
  readonly name: string;
  /** The line under bars of so many beats; undefined where it has no place for what it plays. */
  readonly line: (beatsPerBar: number, partialsPerBeat: number) => string | undefined;
}

/** Lines that drummers practise over; common practice, no source. */
export const ostinatos: readonly Ostinato[] = [
  { name: 'bass drum on every beat', line: (_, partials) => beat(partials, { 0: 'K' }) },
  { name: 'hi-hat on every beat', line: (_, partials) => beat(partials, { 0: 'H' }) },
  { name: 'hi-hat on 2 and 4', line: (beats, partials) => pairs(beats, partials, '-', 'H') },
  {
    name: 'bass drum on 1 and 3, hi-hat on 2 and 4',
    line: (beats, partials) => pairs(beats, partials, 'K', 'H'),
  },
  {
    name: 'soft bass drum on every beat, hi-hat on 2 and 4',
    line: (beats, partials) => pairs(beats, partials, 'k', '[kH]'),
  },
  {
    name: 'bass drum on 1 and 3, hi-hat on the offbeats',
    line: (beats, partials) =>
      partials % 2 === 0 && beats % 2 === 0
        ? `${beat(partials, { 0: 'K', [partials / 2]: 'H' })} ${beat(partials, { [partials / 2]: 'H' })}`
        : undefined,
  },
  {
    name: 'samba: bass drum on the beat and before it, hi-hat between',
    line: (_, partials) => (partials === 4 ? 'K-Hk' : undefined),
  },
];

/** One beat: what stands on which partial, rests elsewhere. */
function beat(partials: number, feet: Readonly<Record<number, string>>): string {
  return Array.from({ length: partials }, (_, partial) => feet[partial] ?? '-').join('');
}

/** Beats in pairs; a bar of an odd number of beats has none. */
function pairs(beats: number, partials: number, first: string, second: string): string | undefined {
  if (beats % 2 !== 0) return undefined;
  return `${beat(partials, { 0: first })} ${beat(partials, { 0: second })}`;
}
