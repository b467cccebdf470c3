import { describe, expect, it } from 'vitest';
import { timeModel, type TimedBar } from '../../../../src/grading/models/time-model';
import { arrivals } from '../../../../src/grading/models/time-model/arrival';
import { reference } from '../../../reference/read';
import { seeded } from '../../seeded';
import { timeRows } from '../../time-rows';

interface Case {
  readonly cells: readonly (readonly (number | null)[])[];
  readonly told: readonly (readonly [value: number, low: number, high: number])[];
}
/** tests/reference/arrival.R: R's lm of cycle and variation */
const { cases } = reference('arrival') as { readonly cases: Readonly<Record<string, Case>> };

const bar = (cycle: number, variation: number, meanMs: number): TimedBar => ({
  bar: 0,
  cycle,
  variation,
  meanMs,
  lagMs: undefined,
  secondMs: undefined,
  lagStrokes: 0,
  secondStrokes: 0,
});
const barsOf = (cells: Case['cells']): TimedBar[] =>
  cells.flatMap((ofCycle, cycle) =>
    ofCycle.flatMap((ms, variation) => (ms === null ? [] : [bar(cycle, variation, ms)])),
  );

describe('how late a variation comes', () => {
  it.each(Object.entries(cases))('agrees with R’s lm: %s', (_, { cells, told }) => {
    const found = arrivals(barsOf(cells), told.length);
    told.forEach(([value, low, high], v) => {
      expect(found[v]?.value).toBeCloseTo(value, 6);
      expect(found[v]?.interval[0]).toBeCloseTo(low, 6);
      expect(found[v]?.interval[1]).toBeCloseTo(high, 6);
    });
  });

  it('of two, one comes 40 ms after the other, and that before it', () => {
    const found = arrivals(
      barsOf([
        [0, 40],
        [10, 50],
        [-5, 35],
      ]),
      2,
    );
    expect(found[0]?.value).toBeCloseTo(-40, 9);
    expect(found[1]?.value).toBeCloseTo(40, 9);
  });

  it('a take that gets later all along has no late variation once its cycles are taken off', () => {
    const steps = [0, 1, 2, 3, 4].map((cycle) => [30 * cycle, 30 * cycle, 30 * cycle]);
    for (const one of arrivals(barsOf(steps), 3)) expect(one?.value).toBeCloseTo(0, 9);
  });

  it('one variation, or one cycle, says nothing', () => {
    expect(arrivals(barsOf([[1], [2], [3]]), 1)).toEqual([undefined]);
    expect(arrivals(barsOf([[1, 2, 3]]), 3)).toEqual([undefined, undefined, undefined]);
  });

  it('a variation that was played once only is left out, and the others are told', () => {
    const found = arrivals(
      barsOf([
        [0, 1, 20],
        [1, 0, null],
        [0, 2, null],
      ]),
      3,
    );
    expect(found[2]).toBeUndefined();
    expect(found[0]).toBeDefined();
  });

  it('bars 60 ms late on one variation are 60 ms, swing and a late hand beside them', () => {
    const random = seeded(17);
    const rows = timeRows(
      ['RLRRLRLL', 'RLLRLRRL', 'RRLRLLRL', 'RLRLLRLR'],
      6,
      ({ variation, hand, partial }) =>
        (variation === 1 ? 60 : 0) +
        (hand === 'L' ? 15 : 0) +
        (partial % 2 === 1 ? 25 : 0) +
        5 * random.normal(),
    );
    const found = arrivals(timeModel(rows)!.bars, 4);
    expect(Math.abs(found[1]!.value - 60)).toBeLessThan(4);
    expect(found[1]!.interval[0]).toBeGreaterThan(50);
    expect(Math.abs(found[0]!.value)).toBeLessThan(8);
  });
});
