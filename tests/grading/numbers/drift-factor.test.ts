import { describe, expect, it } from 'vitest';
import { driftFactor } from '../../../src/grading/numbers/drift-factor';
import { seeded } from '../seeded';
import { reference } from '../../reference/read';

interface Case {
  readonly values: readonly number[];
  readonly m: number;
  readonly tapered: number;
  readonly bartlett: number;
}
/** tests/reference/drift_factor.py: statsmodels' autocorrelations and Bartlett's variance */
const { cases } = reference('drift_factor') as { readonly cases: Readonly<Record<string, Case>> };

describe('how much drifts widen the interval of a spread', () => {
  it.each(Object.entries(cases))('agrees with statsmodels: %s', (_, { values, m, tapered, bartlett }) => {
    const found = driftFactor(Float64Array.from(values), m);
    expect(found).toBeCloseTo(tapered, 10);
    // Bartlett's own sum has no taper, so it is never smaller
    expect(bartlett).toBeGreaterThan(found);
  });

  it('is nearly 1 for errors that do not lean on each other, and 1 where nothing differs', () => {
    const random = seeded(4);
    const white = Float64Array.from({ length: 4000 }, () => random.normal());
    expect(driftFactor(white, 32)).toBeLessThan(1.05);
    expect(driftFactor(new Float64Array(50), 32)).toBe(1);
  });
});
