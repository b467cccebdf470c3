import fc from 'fast-check';
import { expect, it } from 'vitest';

it.skipIf(process.env.FC_SEED !== undefined)('property tests draw the same examples at every run', () => {
  // What the seed of tests/setup.ts draws first; a seed of the day would draw others.
  const drawn: number[] = [];
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 1_000_000 }), (one) => {
      drawn.push(one);
    }),
    { numRuns: 3 },
  );
  expect(drawn).toEqual([535_737, 6, 15]);
});

it('a failing one says its seed, its path and the example', () => {
  const failing = (): void => fc.assert(fc.property(fc.integer({ min: 0, max: 1000 }), (one) => one < 500));
  expect(failing).toThrow(/seed: -?\d+, path: "[\d:]+"[\s\S]*Counterexample: \[500\]/);
});
