import fc from 'fast-check';
import { expect, it } from 'vitest';
import { systemsOf } from '../../../src/components/notation/systems';

const bar = { leastWidth: 300, newBeats: false };

// Common practice of laying out parts, no source.
it('as many bars as fit go into a system, evenly', () => {
  const systems = (count: number, widthPx: number) =>
    systemsOf(
      Array.from({ length: count }, () => bar),
      widthPx,
    ).systems.map((system) => system.length);
  expect(systems(4, 1280)).toEqual([2, 2]);
  expect(systems(4, 820)).toEqual([1, 1, 1, 1]);
  expect(systems(5, 1300)).toEqual([3, 2]);
});

it('a bar wider than the box is drawn smaller, never cut off', () => {
  expect(systemsOf([{ leastWidth: 724, newBeats: false }], 400).scale).toBe(0.5);
});

it('every bar stands in its box once, in order', () => {
  const measure = fc.record({ leastWidth: fc.integer({ min: 40, max: 900 }), newBeats: fc.boolean() });
  fc.assert(
    fc.property(
      fc.array(measure, { minLength: 1, maxLength: 20 }),
      fc.integer({ min: 280, max: 1600 }),
      (measures, widthPx) => {
        const { systems, scale } = systemsOf(measures, widthPx);
        const all = systems.flat();
        expect(all.map((at) => at.measure)).toEqual(measures.map((_, index) => index));
        for (const { x, width } of all) expect((x + width) * scale).toBeLessThanOrEqual(widthPx);
        expect(scale).toBeLessThanOrEqual(1);
      },
    ),
  );
});
