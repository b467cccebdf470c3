/**
 * Numbers in one typed column, each by its place. A take of an hour has 30,000 strokes, and `Float64Array.from` takes
 * twenty times as long.
 * @example columnOf(3, (i) => i * i) // => Float64Array.of(0, 1, 4)
 */
export function columnOf(count: number, at: (i: number) => number): Float64Array {
  const column = new Float64Array(count);
  for (let i = 0; i < count; i++) column[i] = at(i);
  return column;
}
