import { describe, expect, it } from 'vitest';
import type { Figure, Measures, VariationReport } from '../../src/grading/types';
import { bandWithout, namingKeys, weakestFirst, worstOf } from '../../src/grading/weakest';

const at = (supported: number, margin = supported): Figure => ({
  value: 1,
  interval: [1, 1],
  n: [32],
  margin,
  supported,
  band: supported >= 0 ? 'holds' : 'close',
  sure: true,
});
const tooFew: Figure = {
  value: null,
  interval: null,
  n: [2],
  margin: null,
  supported: null,
  band: 'too few strokes',
};

function variation(name: string, measures: Measures): VariationReport {
  return { name, bars: 8, slots: 128, band: 'close', supported: null, measures };
}

// The rules are this app's own; no outside source.
describe('the weakest variation', () => {
  it('has the smallest supported margin', () => {
    const order = weakestFirst([variation('a', { contrast: at(-0.2) }), variation('b', { lag: at(-0.7) })]);
    expect(order.map(({ variation: { name }, key }) => [name, key])).toEqual([
      ['b', 'lag'],
      ['a', 'contrast'],
    ]);
  });

  it('ties go by margin, then teaching order, then phrase order', () => {
    const byMargin = weakestFirst([
      variation('a', { lag: at(-0.5, -0.6) }),
      variation('b', { lag: at(-0.5, -0.9) }),
    ]);
    expect(byMargin[0].variation.name).toBe('b');
    const byOrder = weakestFirst([
      variation('a', { lag: at(-0.5) }),
      variation('b', { leakBefore: at(-0.5) }),
    ]);
    expect(byOrder[0].variation.name).toBe('b');
    const byPhrase = weakestFirst([variation('a', { lag: at(-0.5) }), variation('b', { lag: at(-0.5) })]);
    expect(byPhrase[0].variation.name).toBe('a');
  });

  it('is not named by a spread while anything else is out', () => {
    const order = weakestFirst([
      variation('a', { softSpread: at(-3) }),
      variation('b', { contrast: at(-0.1) }),
    ]);
    expect(order[0]).toMatchObject({ key: 'contrast', variation: { name: 'b' } });
  });

  it('is named by a spread where nothing else is out', () => {
    const order = weakestFirst([
      variation('a', { softSpread: at(-3), contrast: at(0.4) }),
      variation('b', { contrast: at(0.1) }),
    ]);
    expect(order[0]).toMatchObject({ key: 'softSpread', variation: { name: 'a' } });
  });

  it('is no matter of spreads where all hold: then the main measures say what to polish', () => {
    expect(namingKeys([{ softSpread: at(0.1), contrast: at(0.4) }])).not.toContain('softSpread');
  });

  it('passes over what could not be judged', () => {
    expect(weakestFirst([variation('a', { lag: tooFew })])).toEqual([]);
    expect(bandWithout({ lag: tooFew })).toBe('too few strokes');
    expect(bandWithout({})).toBe('not measured');
  });
});

describe('the worst measure', () => {
  it('of the seam is the worse of time and level', () => {
    expect(worstOf({ seam: { ms: at(0.3), dB: at(-0.4) }, lag: at(-0.1) }, ['lag', 'seam'])).toMatchObject({
      key: 'seam',
      supported: -0.4,
    });
  });
});
