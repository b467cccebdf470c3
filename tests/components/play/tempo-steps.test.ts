import fc from 'fast-check';
import { expect, it } from 'vitest';
import { tempoSteps } from '../../../src/components/play/tempo-steps';

// Common practice of raising a tempo, no source.
it('tempos of a sheet climb by about 5 %', () => {
  expect(tempoSteps(60, 6)).toEqual([60, 63, 66, 69, 73, 77]);
  expect(tempoSteps(84, 3)).toEqual([84, 88, 93]);
});

it('slow tempos climb too, by a whole beat a minute at least, and none is over 400', () => {
  expect(tempoSteps(390, 6)).toEqual([390]);
  fc.assert(
    fc.property(fc.integer({ min: 20, max: 400 }), (start) => {
      const steps = tempoSteps(start, 8);
      expect(steps[0]).toBe(start);
      steps.slice(1).forEach((bpm, index) => expect(bpm).toBeGreaterThan(steps[index]));
      expect(Math.max(...steps)).toBeLessThanOrEqual(400);
    }),
  );
});
