import { describe, expect, it } from 'vitest';
import { cell } from '../../src/sessions/csv';

describe('a cell (RFC 4180; formulas defused: common practice, no source)', () => {
  it.each([
    ['accent on 1', 'accent on 1'],
    ['a, b', '"a, b"'],
    ['say "one"', '"say ""one"""'],
    ['=HYPERLINK("x")', `"'=HYPERLINK(""x"")"`],
    ['+1', "'+1"],
    ['@x', "'@x"],
    ['-R', "'-R"],
  ])('%j', (text, written) => {
    expect(cell(text)).toBe(written);
  });

  it('leaves numbers numbers', () => {
    expect(cell(-19.5)).toBe('-19.5');
  });
});
