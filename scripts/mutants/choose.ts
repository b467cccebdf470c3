import { seeded } from '../../src/exercises/seeded';
import type { Change } from './changes';

/**
 * A seeded choice of bugs: of every folder as many as its share of the places where one could be, none of which lie within
 * another. The same sources, seed and number give the same choice.
 */
export function chosenOf(all: readonly Change[], count: number, seed: number): readonly Change[] {
  const random = seeded(seed);
  const order = all.map((change) => ({ change, key: random() })).sort((a, b) => a.key - b.key);
  const chosen: Change[] = [];
  // One of each place first, so that a place with many bugs is no likelier than another.
  const places = new Set<string>();
  for (const { change } of order) {
    if (chosen.length === count) break;
    const place = `${change.file}:${change.line}`;
    if (places.has(place) || chosen.some((other) => overlap(change, other))) continue;
    places.add(place);
    chosen.push(change);
  }
  return chosen.sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : a.from - b.from));
}

function overlap(a: Change, b: Change): boolean {
  return a.file === b.file && a.from < b.to && b.from < a.to;
}

/**
 * A file's text with its bugs in it, each behind a switch: `$mutant(n)` is true where bug n is on.
 * @param changes of this file, with their numbers
 */
export function switched(
  text: string,
  changes: readonly (readonly [number: number, change: Change])[],
): string {
  return [...changes]
    .sort(([, a], [, b]) => b.from - a.from)
    .reduce(
      (whole, [number, { from, to, was, becomes }]) =>
        `${whole.slice(0, from)}($mutant(${number}) ? (${becomes}) : (${was}))${whole.slice(to)}`,
      text,
    );
}
