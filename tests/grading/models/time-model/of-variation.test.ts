import { describe, expect, it } from 'vitest';
import { timeModel } from '../../../../src/grading/models/time-model';
import { ofVariations } from '../../../../src/grading/models/time-model/of-variation';
import { seeded } from '../../seeded';
import { timeRows } from '../../time-rows';

const WALK = ['RLRRLRLLRLRRLRLL', 'RLRRLRLLRLRRLRLL', 'RLRRLRLLRLRRLRLL', 'RLRRLRLLRLRRLRLL'];

describe('a term of one variation', () => {
  it('a left hand 20 ms late in one variation is that variation’s lag, and hardly the others’', () => {
    const random = seeded(21);
    const rows = timeRows(
      WALK,
      8,
      ({ variation, hand }) => (variation === 2 && hand === 'L' ? 20 : 0) + 6 * random.normal(),
    );
    const found = ofVariations(timeModel(rows)!, 'lag', 4);
    expect(Math.abs(found[2].estimate!.value + 20)).toBeLessThan(3);
    expect(found[2].estimate!.interval[1]).toBeLessThan(-15);
    for (const v of [0, 1, 3]) expect(Math.abs(found[v].estimate!.value)).toBeLessThan(3);
    expect(found[2].strokes).toBe(64);
  });

  it('doubles 12 ms wide in one variation are that variation’s', () => {
    const rows = timeRows(WALK, 8, ({ variation, second }) => (variation === 1 && second ? 12 : 0));
    const found = ofVariations(timeModel(rows)!, 'second', 4);
    expect(found[1].estimate?.value).toBeCloseTo(12, 6);
    expect(found[0].estimate?.value).toBeCloseTo(0, 6);
  });

  it('the interval is t of the bars’ values, pooled: by hand', () => {
    // two variations, three bars each: lags 1, 2, 3 and 4, 6, 8; squares 2 + 8 over 4 free; t(0.95, 4) = 2.131847
    const model = timeModel(timeRows(['RLRLRRLL', 'RLRLRRLL'], 3, () => 0))!;
    const lags = [1, 4, 2, 6, 3, 8];
    const played = { ...model, bars: model.bars.map((bar, i) => ({ ...bar, lagMs: lags[i] })) };
    const [first, second] = ofVariations(played, 'lag', 2);
    const half = 2.131847 * Math.sqrt(10 / 4 / 3);
    expect(first.estimate?.value).toBe(2);
    expect(first.estimate?.interval[1]).toBeCloseTo(2 + half, 5);
    expect(second.estimate?.interval[0]).toBeCloseTo(6 - half, 5);
  });

  it('one bar of each says nothing of any', () => {
    const found = ofVariations(timeModel(timeRows(WALK, 1, () => 0))!, 'lag', 4);
    expect(found.every(({ estimate }) => estimate === undefined)).toBe(true);
  });
});
