import { expect, it } from 'vitest';
import { feetWords } from '../../src/grading/feet-words';
import type { FeetReport, Figure } from '../../src/grading/types';

const figure = (value: number | null): Figure => ({ value, interval: null, n: [32] });

const FEET: FeetReport = {
  counts: { slots: 32, matched: 31, missed: 1, notMeasured: 0, extra: 2 },
  K: {
    slots: 32,
    matched: 31,
    scatter: figure(6.2),
    asynchrony: figure(-4.1),
    softness: figure(-8.13),
  },
  hands: { deviationMs: figure(2.9), levelDb: figure(-0.42) },
};

it('says of each foot how it was played, and what the feet do to the hands', () => {
  expect(feetWords(FEET)).toBe(
    'Bass drum foot: 31 of 32 strokes, scatter 6 ms, 4 ms early, −8.1 dB. Strokes of the feet that were not due: 2. ' +
      'Where a foot falls the hands come 3 ms later and 0.4 dB softer than elsewhere.',
  );
});

it('leaves out what could not be measured', () => {
  const few = figure(null);
  const hands = { deviationMs: few, levelDb: few };
  expect(feetWords({ ...FEET, counts: { ...FEET.counts, extra: 0 }, hands })).not.toMatch(/hands|not due/);
});
