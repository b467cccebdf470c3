/**
 * Where in its beat a partial falls, 0 to 1. With swing every second partial of a beat moves: of two, the second falls
 * at `swing` of their time.
 * @param partial of the beat, from 0
 * @param partials in the beat
 * @param swing 0.5 is straight
 * @example shareOfBeat(1, 2, 0.6) // => 0.6
 */
export function shareOfBeat(partial: number, partials: number, swing: number): number {
  const swung = partials % 2 === 0 && partial % 2 === 1;
  return (swung ? partial - 1 + 2 * swing : partial) / partials;
}
