import { expect, it } from 'vitest';
import type { Ceiling } from '../../../src/insight/ceiling/ceiling';
import { limiting } from '../../../src/insight/ceiling/words';

const below: Ceiling = { kind: 'below', bars: 8, bpm: 84 };
const above: Ceiling = { kind: 'above', bars: 8, bpm: 84 };

it('a phrase’s ceiling is said to be that of all variations that stand alike, and of none where all do', () => {
  const two = { ceiling: below };
  const one = { ceiling: above };
  expect(
    limiting('accent on 1', [
      ['accent on 1', two],
      ['accent on 2', one],
      ['accent on 4', two],
    ]),
  ).toEqual(['accent on 1', 'accent on 4']);
  expect(
    limiting('accent on 1', [
      ['accent on 1', two],
      ['accent on 2', two],
    ]),
  ).toEqual([]);
  expect(limiting('accent on 1', [['accent on 1', two]])).toEqual([]);
  expect(limiting(null, [])).toEqual([]);
});
