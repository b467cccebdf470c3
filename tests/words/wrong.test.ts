import { describe, expect, it } from 'vitest';
import { mostly, wrongWords } from '../../src/words/wrong';

// The wording is this app's own; no outside source.
describe('what went wrong', () => {
  it('is said by kind, the most first', () => {
    expect(wrongWords({ missed: 1, extra: 7 })).toBe('7 were added and 1 was missed');
    expect(wrongWords({ missed: 2, extra: 2, wrongHand: 1, wrongDrum: 3 })).toBe(
      '3 were on another drum, 2 were missed, 2 were added and 1 was in the other hand',
    );
    expect(wrongWords({ slip: 2, otherBar: 1 })).toBe(
      'the pattern slipped two times and one bar was played as another',
    );
    expect(wrongWords({})).toBe('');
  });

  it('is mostly of one kind; of as many the first that a player can mend', () => {
    expect(mostly({ missed: 1, extra: 7 })).toBe('extra');
    expect(mostly({ missed: 2, wrongHand: 2 })).toBe('missed');
    expect(mostly({})).toBeUndefined();
    expect(mostly(undefined)).toBeUndefined();
  });
});
