import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { handsText, parseBar, parseSticking, stickingText } from '../../src/exercises/sticking';

describe('sticking text', () => {
  it('reads the single paradiddle: RLRR LRLL (sticking: encyclopaedia and two pages, check-values section 4, row 16)', () => {
    const [bar] = parseSticking('Rlrr Lrll');
    expect(bar.map((partial) => partial.notes[0].hand).join('')).toBe('RLRRLRLL');
    expect(bar.map((partial) => partial.notes[0].kind)).toEqual([
      'accent',
      'tap',
      'tap',
      'tap',
      'accent',
      'tap',
      'tap',
      'tap',
    ]);
  });

  it('reads ghosts, rests, graces and unisons', () => {
    const [bar] = parseSticking('(r)-{l}R{rr}l[Rl]');
    expect(bar).toEqual([
      { notes: [{ hand: 'R', kind: 'ghost' }], graces: [] },
      { notes: [], graces: [] },
      { notes: [{ hand: 'R', kind: 'accent' }], graces: ['L'] },
      { notes: [{ hand: 'L', kind: 'tap' }], graces: ['R', 'R'] },
      {
        notes: [
          { hand: 'R', kind: 'accent' },
          { hand: 'L', kind: 'tap' },
        ],
        graces: [],
      },
    ]);
  });

  it.each([
    ['Rlrx Lrll', 'line 1, column 4 must be R or L (accent), r or l (tap)'],
    ['Rlrx Lrll', 'got "x"'],
    ['Rlrr\nLr?l', 'line 2, column 3 must be R or L (accent)'],
    ['(x)lrr', 'line 1, column 1 must be (r) or (l), got "(x)"'],
    ['(rlrr', 'line 1, column 1 opens a bracket that no ")" closes'],
    ['{r}R', 'line 1, column 1 must be of the other hand than the stroke it leads to'],
    ['{lll}R', 'line 1, column 1 must be one or two grace notes of one hand'],
    ['Rl{l}', 'line 1, column 3 must stand before a stroke'],
    ['[RR]', 'line 1, column 1 must be one letter a hand'],
    ['Rl||Rl', 'line 1, column 4 ends a bar that has nothing in it'],
    ['   ', 'line 1, column 1 must have at least one stroke'],
  ])('says where %j is wrong', (text, message) => {
    expect(() => parseSticking(text)).toThrow(message);
  });

  it('says that a short bar is short, and how to fill it', () => {
    expect(() => parseBar('Rlrr Lrl', 16)).toThrow('must fill its bar: 7 partials in a bar of 16');
    expect(() => parseBar('Rlrr Lrll', 16)).toThrow('8 partials in a bar of 16 (write it 2 times)');
  });

  it('labels a pattern by its hands', () => {
    expect(handsText(parseSticking('rLlr lRrl')[0], [4])).toBe('RLLR LRRL');
  });

  it('prints what it read, and reads what it printed, for any bar', () => {
    const hand = fc.constantFrom(
      'R',
      'L',
      'r',
      'l',
      '(r)',
      '(l)',
      '-',
      '{l}R',
      '{rr}l',
      '{l}(r)',
      '[RL]',
      '[rL]',
    );
    fc.assert(
      fc.property(
        fc.array(hand, { minLength: 1, maxLength: 32 }),
        fc.integer({ min: 1, max: 6 }),
        (tokens, beat) => {
          const bars = parseSticking(tokens.join(''));
          expect(parseSticking(stickingText(bars[0], [beat]))).toEqual(bars);
        },
      ),
    );
  });
});
