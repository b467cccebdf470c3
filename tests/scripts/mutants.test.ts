import { describe, expect, it } from 'vitest';
import { changesIn } from '../../scripts/mutants/changes';
import { chosenOf, switched } from '../../scripts/mutants/choose';
import { countsOf, knownOf, tableOf, type Tried } from '../../scripts/mutants/table';

const changes = (text: string): string[] =>
  changesIn('src/grading/made.ts', text).map(({ becomes }) => becomes);

describe('the small bugs that could be planted', () => {
  it.each([
    ['a < b', ['a <= b', 'a >= b']],
    ['a >= b', ['a > b', 'a < b']],
    ['a !== b', ['a === b']],
    ['a - b', ['a + b', 'a', '(b) - (a)']],
    ['a * b', ['a / b']],
    ['a += b', ['a -= b']],
    ['a && b', ['a || (b)', 'a']],
    ['Math.min(a, b)', ['Math.max(a, b)']],
    ['Math.abs(a)', ['(a)']],
    ['all.every((one) => one)', ['all.some((one) => one)']],
    ['-a', ['a']],
    ['!a', ['a']],
    ['a ? b : c', ['a ? c : b']],
    ['7', ['8']],
    ['0.5', ['0.75']],
  ])('%s', (text, becomes) => {
    expect(changes(`${text};`)).toEqual(becomes);
  });

  it('an early return taken out, but no branch with an else', () => {
    expect(changes('function f() { if (a) return 1; }')).toEqual(['(a) && false', '2']);
    expect(changes('function f() { if (a) { b(); } else { c(); } }')).toEqual([]);
  });

  it('none in types, imports, words or the keys of objects', () => {
    expect(changes('type A = 1 | -2; const a: 3 = b; import c from "d";')).toEqual([]);
    expect(changes('const words = "a < b" + `${c}`; const d = { 4: e };')).toEqual([]);
  });
});

describe('a choice of them', () => {
  const all = changesIn('src/midi/a.ts', 'f(a < b, c - d);\ng(1, -e);\nh(x ? y : z);\n');

  it('is the same for the same seed, one a line, none within another', () => {
    expect(chosenOf(all, 9, 4)).toEqual(chosenOf(all, 9, 4));
    expect(chosenOf(all, 9, 4).map(({ line }) => line)).toEqual([1, 2, 3]);
    expect(chosenOf(all, 2, 4)).toHaveLength(2);
  });

  it('stands in the text behind switches that are off: what ran before runs still', () => {
    const text = 'x = a < b ? c - d : 7;';
    const [comparison] = changesIn('src/midi/a.ts', text).filter(({ becomes }) => becomes === 'a <= b');
    const [constant] = changesIn('src/midi/a.ts', text).filter(({ becomes }) => becomes === '8');
    expect(
      switched(text, [
        [4, comparison],
        [7, constant],
      ]),
    ).toBe('x = ($mutant(4) ? (a <= b) : (a < b)) ? c - d : ($mutant(7) ? (8) : (7));');
  });
});

describe('the table', () => {
  const [first, second, third] = changesIn('src/midi/a.ts', 'f(a < b, !c);');
  const tried: readonly Tried[] = [
    { change: first, fate: { kind: 'caught', by: 'tests/a.test.ts' } },
    {
      change: second,
      fate: { kind: 'survived', files: 3 },
      known: { file: 'src/midi/a.ts', was: 'a < b', becomes: 'a >= b', kind: 'same', why: 'Never both.' },
    },
    { change: third, fate: { kind: 'survived', files: 3 } },
  ];

  it('counts what changes nothing out of the share', () => {
    expect(countsOf(tried)).toEqual({ planted: 3, caught: 1, same: 1, survived: 1, share: 50 });
    expect(tableOf(tried, 'Head')).toContain('| midi | 3 | 1 | 1 | 1 | 50.0 % |');
  });

  it('says of each survivor why, or that nobody has looked', () => {
    const table = tableOf(tried, 'Head');
    expect(table).toMatch(/## Change nothing\n\n\* `src\/midi\/a.ts:1`: comparison, .* Never both\./);
    expect(table).toMatch(/## Survived\n\n\* .* Nobody has looked yet\./);
    expect(
      knownOf(first, [{ file: 'src/midi/a.ts', was: 'a < b', becomes: 'a <= b', kind: 'open', why: '' }]),
    ).toBeDefined();
  });
});
