/** A written note value as its share of a whole note: 4 a quarter, 32 a thirty-second. */
export type NoteValue = 4 | 8 | 16 | 32 | 64;

/** A note or a rest as it is written. */
export interface WrittenNote {
  /** Partial of the beat it falls on, from 0, and how many partials it fills. */
  readonly partial: number;
  readonly length: number;
  readonly value: NoteValue;
  readonly dotted: boolean;
  readonly rest: boolean;
}

/** So many of the written notes, from `first`, stand under one number: `number` in the space of `inSpaceOf`. */
export interface WrittenTuplet {
  readonly first: number;
  readonly notes: number;
  readonly number: number;
  readonly inSpaceOf: number;
}

interface WrittenSpan {
  readonly notes: readonly WrittenNote[];
  readonly tuplets: readonly WrittenTuplet[];
}

/**
 * How a beat (or a part of one) is written. A stroke lasts until the next one, as drum writers do, since a drum has no
 * length; rests stand before the first stroke and where no one value fits. Partials that no stroke needs are not
 * written: strokes on the first, third and fifth of six are a triplet of eighths.
 * @param struck for each of the equal partials whether a stroke falls on it
 * @param value what the whole span is worth: 4 for a beat, 8 for half of one
 * @returns undefined where a partial would be shorter than a sixty-fourth, which can't be read
 * @example writtenSpan([true, false, false, true]).notes.map((note) => note.value) // => [8, 16]
 */
export function writtenSpan(struck: readonly boolean[], value: NoteValue = 4): WrittenSpan | undefined {
  const step = commonStep(struck);
  const parts = struck.length / step;
  if (parts === 1) {
    return {
      notes: [{ partial: 0, length: struck.length, value, dotted: false, rest: !struck[0] }],
      tuplets: [],
    };
  }
  if (readsBetterInHalves(struck, parts)) return inHalves(struck, value);

  const inSpaceOf = powerOfTwoUpTo(parts);
  const unit = divided(value, inSpaceOf);
  if (unit === undefined) return undefined;
  const even = inSpaceOf === parts;
  const strokes = struck.flatMap((stroke, index) => (stroke ? [index / step] : []));
  const starts = strokes[0] === 0 ? strokes : [0, ...strokes];
  const written = starts.flatMap((start, index) =>
    pieces(start, (starts[index + 1] ?? parts) - start, struck[start * step], even ? parts : 2 - (parts % 2)),
  );
  const notes = written.map(({ start, length, rest }): WrittenNote => {
    const dotted = length % 3 === 0;
    return {
      partial: start * step,
      length: length * step,
      value: (unit / (dotted ? (length / 3) * 2 : length)) as NoteValue,
      dotted,
      rest,
    };
  });
  if (even) return { notes, tuplets: [] };
  const half = readsInPairs(written, parts) ? 2 : 1;
  const tuplet = { first: 0, notes: notes.length, number: parts / half, inSpaceOf: inSpaceOf / half };
  return { notes, tuplets: [tuplet] };
}

/** The coarsest grid of the span on which every stroke still falls, in partials. */
function commonStep(struck: readonly boolean[]): number {
  for (let step = struck.length; step > 1; step -= 1) {
    if (struck.length % step === 0 && struck.every((stroke, index) => !stroke || index % step === 0))
      return step;
  }
  return 1;
}

/** Six, ten, … parts of which one half holds a single stroke: a triplet of sixteenths and an eighth. */
function readsBetterInHalves(struck: readonly boolean[], parts: number): boolean {
  if (parts % 2 === 1 || powerOfTwoUpTo(parts) === parts) return false;
  const half = struck.length / 2;
  return [struck.slice(0, half), struck.slice(half)].some((part) => part[0] && commonStep(part) === half);
}

function inHalves(struck: readonly boolean[], value: NoteValue): WrittenSpan | undefined {
  const half = struck.length / 2;
  const worth = divided(value, 2);
  if (worth === undefined) return undefined;
  const first = writtenSpan(struck.slice(0, half), worth);
  const second = writtenSpan(struck.slice(half), worth);
  if (first === undefined || second === undefined) return undefined;
  return {
    notes: [...first.notes, ...second.notes.map((note) => ({ ...note, partial: note.partial + half }))],
    tuplets: [
      ...first.tuplets,
      ...second.tuplets.map((tuplet) => ({ ...tuplet, first: tuplet.first + first.notes.length })),
    ],
  };
}

interface Piece {
  readonly start: number;
  readonly length: number;
  readonly rest: boolean;
}

/**
 * A stroke as long as one value can say, plain or dotted, and rests for what is left.
 * @param longestRest the longest rest that may be written in one
 */
function pieces(start: number, length: number, stroke: boolean, longestRest: number): Piece[] {
  if (length === 0) return [];
  if (stroke) {
    const plain = powerOfTwoUpTo(length);
    const own = length >= plain * 1.5 && plain > 1 ? plain * 1.5 : plain;
    return [{ start, length: own, rest: false }, ...pieces(start + own, length - own, false, longestRest)];
  }
  let rest = Math.min(powerOfTwoUpTo(length), longestRest);
  while (start % rest !== 0) rest /= 2;
  return [{ start, length: rest, rest: true }, ...pieces(start + rest, length - rest, false, longestRest)];
}

/** Three eighths of which one is two sixteenths read as three, not as six. */
function readsInPairs(written: readonly Piece[], parts: number): boolean {
  if (parts % 4 !== 2) return false;
  return (
    written.some(({ length }) => length === 2) &&
    written.every(({ start, length }) => (start % 2 === 0 ? length <= 2 : length === 1))
  );
}

function powerOfTwoUpTo(count: number): number {
  let power = 1;
  while (power * 2 <= count) power *= 2;
  return power;
}

function divided(value: NoteValue, by: number): NoteValue | undefined {
  const values: readonly NoteValue[] = [4, 8, 16, 32, 64];
  return values.find((shorter) => shorter === value * by);
}
