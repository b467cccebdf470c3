/**
 * What is said on the partials after the beat, by partials in the beat. Triplets are counted `1 & a`, which is as short
 * as the notes are; twice as many partials keep the count of half as many. Source: common practice.
 */
const syllables: Readonly<Record<number, readonly string[]>> = {
  1: [],
  2: ['&'],
  3: ['&', 'a'],
  4: ['e', '&', 'a'],
  6: ['', '&', '', 'a', ''],
  8: ['', 'e', '', '&', '', 'a', ''],
};

/**
 * What is said on a partial: the beat's number on the beat, then the syllables; empty where there is no common one.
 * @example countOf(1, 0, 4) // => '2'
 * @example countOf(1, 3, 4) // => 'a'
 */
export function countOf(beat: number, partial: number, partials: number): string {
  if (partial === 0) return String(beat + 1);
  return syllables[partials]?.[partial - 1] ?? '';
}
