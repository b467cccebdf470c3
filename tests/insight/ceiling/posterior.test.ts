import { describe, expect, it } from 'vitest';
import { posteriorOf } from '../../../src/insight/ceiling/posterior';
import { reference } from '../../reference/read';

interface Case {
  readonly rows: readonly (readonly [bpm: number, bars: number, clean: number, day: number])[];
  readonly day: number;
  readonly ceiling: readonly [number, number, number];
  readonly growth: readonly [number, number, number] | null;
}
const { cases } = reference('ceiling_posterior') as { readonly cases: readonly Case[] };
const triedIn = ({ rows }: Case) => rows.map(([bpm, bars, clean, day]) => ({ bpm, bars, clean, day }));

/** Within so many percent of the other. */
const near = (value: number, other: number, percent: number): void =>
  expect(Math.abs(Math.log(value / other))).toBeLessThan(percent / 100);

// tests/reference/ceiling_posterior.py: one dense grid in numpy, days integrated by Gauss-Hermite quadrature
describe('the posterior of a ceiling', () => {
  it.each(cases)('is a dense grid’s: $rows', (of) => {
    const { value, interval } = posteriorOf(triedIn(of)).ceilingOn(of.day);
    // where the prior alone ends it, the grid is coarser
    const percent = of.ceiling[2] / of.ceiling[0] > 1.5 ? 3 : 0.8;
    near(interval[0], of.ceiling[0], percent);
    near(value, of.ceiling[1], percent);
    near(interval[1], of.ceiling[2], percent);
  });

  it.each(cases)('has its growth a week: $growth', (of) => {
    const { perWeek } = posteriorOf(triedIn(of));
    if (of.growth === null) return expect(perWeek).toBeUndefined();
    const [low, middle, high] = of.growth;
    expect(perWeek?.interval[0]).toBeCloseTo(low, 2);
    expect(perWeek?.value).toBeCloseTo(middle, 2);
    expect(perWeek?.interval[1]).toBeCloseTo(high, 2);
    expect(Math.abs((perWeek?.value ?? 1) - middle)).toBeLessThan(0.002);
  });

  it('is the same whatever calendar days are counted on, and in whatever order bars come', () => {
    const tried = triedIn(cases[2]);
    const here = posteriorOf(tried).ceilingOn(27);
    const later = posteriorOf([...tried].reverse().map((one) => ({ ...one, day: one.day + 20_000 })));
    expect(later.ceilingOn(20_027)).toEqual(here);
  });
});
