import { describe, expect, it, vi } from 'vitest';
import { floors, leastOf, liveOverAll, right } from '../../bench/floors';

// The takes are seeded, so a run is like the one before; what a change of code does to single takes is as chance would. A floor
// fails under what a true share of it brings once in a million times (exact binomial), and each was measured at or over its
// floor on 300 other takes: `npm run bench floors`.
const SEED = 1;
/** Half a second or so a floor where nothing else runs. */
vi.setConfig({ testTimeout: 600_000 });

describe('figures that must never fall', () => {
  it.each(floors.map((floor) => [floor.name, floor] as const))('%s', (_, floor) => {
    expect(right(floor, floor.few, SEED)).toBeGreaterThanOrEqual(leastOf(floor.few, floor.floor));
  });

  it('live and whole take agree on 99.5 % of all slots; their mean is over five standard errors from that', () => {
    const { mean, error } = liveOverAll(60, SEED);
    expect(mean - 5 * error).toBeGreaterThanOrEqual(0.995);
  });
});

describe('how many must turn out right', () => {
  // Of 20 coins 1 head or none comes with a chance of 21/2^20 = 2.0e-5, none with 9.5e-7 (arithmetic).
  it('so many that fewer come once in a million times', () => {
    expect(leastOf(20, 0.5)).toBe(1);
    expect(leastOf(20, 0.5, 2.1e-5)).toBe(2);
    expect(leastOf(20, 0.5, 1.9e-5)).toBe(1);
    expect(leastOf(4, 0.5)).toBe(0);
  });

  it('no floor is so low, nor looks at so few takes, that it could not fail', () => {
    for (const { few, floor } of floors) expect(leastOf(few, floor)).toBeGreaterThan(few / 2);
  });
});
