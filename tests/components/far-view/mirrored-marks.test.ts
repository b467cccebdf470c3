import { expect, it } from 'vitest';
import { mirroredY } from '../../../src/components/far-view/mirrored-marks';

// From the look: "the two hands mirrored about a line".
it('equal strokes of both hands stand equally far from the line, right above and left below', () => {
  for (const y of [0, 0.25, 0.7, 1]) {
    expect(mirroredY(y, 'R') - 0.5).toBeCloseTo(0.5 - mirroredY(y, 'L'), 12);
    expect(mirroredY(y, 'R')).toBeGreaterThanOrEqual(0.5);
  }
  expect(mirroredY(0, 'L')).toBe(0.5);
});
