import { InputError } from '../errors';

/** A stroke of a foot: `K` the bass drum's, `H` the hi-hat's. */
export interface FootStroke {
  readonly foot: 'K' | 'H';
  readonly soft: boolean;
}

/**
 * A feet line, one token a partial: `K` bass drum foot, `H` hi-hat foot, `[KH]` both, lower case soft, `-` rest. Spaces
 * and `|` mean nothing. It is as long as it is and repeats under everything.
 * @throws InputError with line and column (from 1) at the character that is wrong, and for a line with no token
 * @example parseFeet('K-[kH]-')[2] // => [{ foot: 'K', soft: true }, { foot: 'H', soft: false }]
 */
export function parseFeet(text: string): readonly (readonly FootStroke[])[] {
  const partials: FootStroke[][] = [];
  for (const token of text.matchAll(/\[[^\]]*\]?|[^\s|]/g)) {
    const [found] = token;
    if (!/^([KHkh-]|\[([Kk][Hh]|[Hh][Kk])\])$/.test(found)) {
      const before = text.slice(0, token.index).split('\n');
      throw new InputError(
        `line ${before.length}, column ${before[before.length - 1].length + 1}`,
        'must be K (bass drum foot), H (hi-hat foot), k or h (soft), [KH] (both) or - (rest)',
        found,
      );
    }
    partials.push([...found].filter((letter) => /[KHkh]/.test(letter)).map(footOf));
  }
  if (partials.length === 0) throw new InputError('line 1, column 1', 'must have a foot or a rest', text);
  return partials;
}

/**
 * A feet line as text, grouped by beat, the bass drum first where both feet play.
 * @param partialsPerBeat where the spaces go; the list is repeated where the line is longer
 * @example feetText(parseFeet('K---[hk]---'), [4]) // => K--- [kh]---
 */
export function feetText(
  feet: readonly (readonly FootStroke[])[],
  partialsPerBeat: readonly number[],
): string {
  const beats: string[] = [];
  for (let start = 0, beat = 0; start < feet.length; beat += 1) {
    const length = partialsPerBeat[beat % partialsPerBeat.length];
    beats.push(
      feet
        .slice(start, start + length)
        .map(partialText)
        .join(''),
    );
    start += length;
  }
  return beats.join(' ');
}

function partialText(strokes: readonly FootStroke[]): string {
  const letters = [...strokes]
    .sort((a, b) => (a.foot === b.foot ? 0 : a.foot === 'K' ? -1 : 1))
    .map(({ foot, soft }) => (soft ? foot.toLowerCase() : foot))
    .join('');
  return letters.length > 1 ? `[${letters}]` : letters || '-';
}

function footOf(letter: string): FootStroke {
  return { foot: letter.toUpperCase() === 'K' ? 'K' : 'H', soft: letter === letter.toLowerCase() };
}
