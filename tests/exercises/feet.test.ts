import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { feetText, parseFeet } from '../../src/exercises/feet';

describe('a feet line', () => {
  it('has a token a partial: bass drum, hi-hat foot, both, soft, rest', () => {
    expect(parseFeet('K h[kH] -')).toEqual([
      [{ foot: 'K', soft: false }],
      [{ foot: 'H', soft: true }],
      [
        { foot: 'K', soft: true },
        { foot: 'H', soft: false },
      ],
      [],
    ]);
  });

  it.each([
    ['K--x', 'line 1, column 4 must be K (bass drum foot)', 'got "x"'],
    ['K---\n-R', 'line 2, column 2 must be', 'got "R"'],
    ['[KK]', 'line 1, column 1 must be', 'got "[KK]"'],
    ['--[KH', 'line 1, column 3 must be', 'got "[KH"'],
    ['  ', 'line 1, column 1 must have a foot or a rest', 'got "  "'],
  ])('says where %j is wrong', (text, rule, got) => {
    expect(() => parseFeet(text)).toThrow(rule);
    expect(() => parseFeet(text)).toThrow(got);
  });

  it('puts the bass drum first and a space between beats', () => {
    expect(feetText(parseFeet('K--[Hk]H'), [2, 3])).toBe('K- -[kH]H');
  });

  it('prints what it read, for any line', () => {
    const token = fc.constantFrom('K', 'H', 'k', 'h', '[KH]', '[kh]', '[Kh]', '-');
    fc.assert(
      fc.property(
        fc.array(token, { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 1, max: 8 }),
        (tokens, beat) => {
          const text = feetText(parseFeet(tokens.join('')), [beat]);
          expect(text.replaceAll(' ', '')).toBe(tokens.join(''));
        },
      ),
    );
  });
});
