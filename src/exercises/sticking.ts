import { InputError } from '../errors';
import { otherHand, type Hand } from '../stroke';
import type { Kind, Note, PartialNotes, Sticking } from './types';

/**
 * Sticking text, one token a partial: `R L` accent, `r l` tap, `(r) (l)` ghost, `-` rest, `{l}R` one grace note,
 * `{ll}R` two, `[RL]` both hands. Spaces and line ends mean nothing; `|` ends a bar.
 * @returns the bars, each a list of partials; a `|` at the very end adds none
 * @throws InputError with line and column (from 1) at the character that is wrong
 * @example parseSticking('Rlrr Lrll').length // => 1
 */
export function parseSticking(text: string): Sticking[] {
  const reader = new Reader(text);
  const bars: PartialNotes[][] = [[]];
  for (let token = reader.next(); token !== undefined; token = reader.next()) {
    if (token.at === '|') {
      if (bars[bars.length - 1].length === 0)
        throw reader.error(token.index, 'ends a bar that has nothing in it');
      bars.push([]);
    } else {
      bars[bars.length - 1].push(partialOf(token, reader));
    }
  }
  if (bars[bars.length - 1].length === 0) bars.pop();
  if (bars.length === 0)
    throw new InputError('line 1, column 1', 'must have at least one stroke: R, L, r or l', '');
  return bars;
}

/**
 * One bar of sticking text.
 * @param partials how many partials the bar must have
 * @throws InputError at the character, or for more than one bar, or for a bar of the wrong length
 */
export function parseBar(text: string, partials: number): Sticking {
  const bars = parseSticking(text);
  if (bars.length > 1) throw new InputError('', `must be one bar, got ${bars.length}`);
  const found = bars[0].length;
  if (found !== partials) {
    const hint = partials % found === 0 ? `write it ${partials / found} times` : undefined;
    throw new InputError('', `must fill its bar: ${found} partials in a bar of ${partials}`, undefined, hint);
  }
  return bars[0];
}

/**
 * Partials as sticking text, grouped by beat.
 * @param partialsPerBeat where the spaces go; the list is repeated where the sticking is longer
 */
export function stickingText(sticking: Sticking, partialsPerBeat: readonly number[]): string {
  const groups: string[] = [];
  for (let start = 0, beat = 0; start < sticking.length; beat += 1) {
    const length = partialsPerBeat[beat % partialsPerBeat.length];
    groups.push(
      sticking
        .slice(start, start + length)
        .map(partialText)
        .join(''),
    );
    start += length;
  }
  return groups.join(' ');
}

/** The hands alone, as a label: `RLRR LRLL`. A rest is `-`, a unison `[RL]`. */
export function handsText(sticking: Sticking, partialsPerBeat: readonly number[]): string {
  return stickingText(
    sticking.map((partial) => ({
      graces: [],
      notes: partial.notes.map((note) => ({ ...note, kind: 'accent' })),
    })),
    partialsPerBeat,
  );
}

/**
 * Whether a name is sticking text: there a capital is an accent, and stays what it is.
 * @example isSticking('rLrr lRll') // => true
 * @example isSticking('accent on 1') // => false
 */
export function isSticking(text: string): boolean {
  return /^[RLrl()[\]{}\-|\s]+$/.test(text);
}

interface Token {
  readonly at: string;
  readonly index: number;
}

class Reader {
  private index = 0;

  constructor(private readonly text: string) {}

  /** The next character that is not white space. */
  next(): Token | undefined {
    while (this.index < this.text.length && /\s/.test(this.text[this.index])) this.index += 1;
    if (this.index >= this.text.length) return undefined;
    const token = { at: this.text[this.index], index: this.index };
    this.index += 1;
    return token;
  }

  /** What stands between an opening bracket and `close`. */
  until(close: string, open: Token): string {
    const end = this.text.indexOf(close, this.index);
    if (end < 0) throw this.error(open.index, `opens a bracket that no "${close}" closes`);
    const inside = this.text.slice(this.index, end).replaceAll(/\s/g, '');
    this.index = end + 1;
    return inside;
  }

  error(index: number, rule: string, value?: string, hint?: string): InputError {
    const before = this.text.slice(0, index).split('\n');
    const place = `line ${before.length}, column ${before[before.length - 1].length + 1}`;
    return new InputError(place, rule, value, hint);
  }
}

function partialOf(token: Token, reader: Reader): PartialNotes {
  switch (token.at) {
    case '-':
      return { notes: [], graces: [] };
    case '(':
      return { notes: [ghostOf(token, reader)], graces: [] };
    case '[':
      return { notes: unisonOf(token, reader), graces: [] };
    case '{':
      return gracedOf(token, reader);
    default:
      return { notes: [noteOf(token, reader)], graces: [] };
  }
}

const LETTERS: Readonly<Record<string, Note>> = {
  R: { hand: 'R', kind: 'accent' },
  L: { hand: 'L', kind: 'accent' },
  r: { hand: 'R', kind: 'tap' },
  l: { hand: 'L', kind: 'tap' },
};

function noteOf(token: Token, reader: Reader): Note {
  const note = Object.hasOwn(LETTERS, token.at) ? LETTERS[token.at] : undefined;
  if (note === undefined) {
    throw reader.error(
      token.index,
      'must be R or L (accent), r or l (tap), (r) or (l) (ghost), - (rest), {l}R, {ll}R, [RL] or |',
      token.at,
    );
  }
  return note;
}

function ghostOf(open: Token, reader: Reader): Note {
  const inside = reader.until(')', open);
  if (inside !== 'r' && inside !== 'l') throw reader.error(open.index, 'must be (r) or (l)', `(${inside})`);
  return { hand: inside === 'r' ? 'R' : 'L', kind: 'ghost' };
}

function unisonOf(open: Token, reader: Reader): Note[] {
  const inside = reader.until(']', open);
  const notes = [...inside].map((letter) => (Object.hasOwn(LETTERS, letter) ? LETTERS[letter] : undefined));
  const [first, second] = notes;
  if (notes.length !== 2 || !first || !second || first.hand === second.hand) {
    throw reader.error(open.index, 'must be one letter a hand, like [RL]', `[${inside}]`);
  }
  return first.hand === 'R' ? [first, second] : [second, first];
}

function gracedOf(open: Token, reader: Reader): PartialNotes {
  const inside = reader.until('}', open);
  if (!/^(l{1,2}|r{1,2})$/.test(inside)) {
    throw reader.error(
      open.index,
      'must be one or two grace notes of one hand: {l}, {ll}, {r} or {rr}',
      `{${inside}}`,
    );
  }
  const main = reader.next();
  if (main === undefined) throw reader.error(open.index, 'must stand before a stroke', `{${inside}}`);
  const note = main.at === '(' ? ghostOf(main, reader) : noteOf(main, reader);
  const grace: Hand = inside[0] === 'r' ? 'R' : 'L';
  if (grace !== otherHand(note.hand)) {
    throw reader.error(
      open.index,
      'must be of the other hand than the stroke it leads to',
      `{${inside}}${main.at}`,
    );
  }
  return { notes: [note], graces: [...inside].map(() => grace) };
}

function partialText(partial: PartialNotes): string {
  if (partial.notes.length === 0) return '-';
  const graces = partial.graces.map((hand) => hand.toLowerCase()).join('');
  const notes = partial.notes.map(noteText).join('');
  return `${graces === '' ? '' : `{${graces}}`}${partial.notes.length > 1 ? `[${notes}]` : notes}`;
}

function noteText({ hand, kind }: { hand: Hand; kind: Kind }): string {
  if (kind === 'accent') return hand;
  return kind === 'tap' ? hand.toLowerCase() : `(${hand.toLowerCase()})`;
}
