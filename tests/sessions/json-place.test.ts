import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstWrongIndex } from '../../src/sessions/json-place';

describe('where a text stops being JSON (RFC 8259)', () => {
  it.each([
    ['', 0],
    ['\u0000', 0],
    ['{"a":1', 6],
    ['{"a" 1}', 5],
    ['[1,,2]', 3],
    ["{'a':1}", 1],
    ['[01]', 2],
    ['{"a":"x\ny"}', 7],
    ['[1] x', 4],
    ['{"a":tru', 5],
  ])('%j at %d', (text, index) => {
    expect(firstWrongIndex(text)).toBe(index);
  });

  it('finds nothing wrong with any JSON, and something with what is no JSON (law)', () => {
    fc.assert(
      fc.property(fc.json(), (text) => {
        expect(firstWrongIndex(text)).toBeUndefined();
      }),
    );
    fc.assert(
      fc.property(fc.json(), fc.nat(), fc.string({ minLength: 1, maxLength: 3 }), (text, at, put) => {
        const broken = text.slice(0, at % text.length) + put + text.slice((at % text.length) + 1);
        let isJson = true;
        try {
          JSON.parse(broken);
        } catch {
          isJson = false;
        }
        expect(firstWrongIndex(broken) === undefined).toBe(isJson);
      }),
      { numRuns: 1000 },
    );
  });

  it('gives up on a text of nothing but brackets instead of exhausting the stack', () => {
    expect(firstWrongIndex('['.repeat(100_000))).toBe(200);
  });
});
