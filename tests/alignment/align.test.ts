import { describe, expect, it } from 'vitest';
import { align } from '../../src/alignment/align';
import { settingsOf } from '../../src/settings';
import { ACCENT_ON_1, ACCENT_ON_2, perfect, sixteenths, stroke } from './made';

const settings = settingsOf('working');
const statuses = (alignment: ReturnType<typeof align>): string[] => alignment.outcomes.map((o) => o.status);

describe('a take without a fault', () => {
  const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 4);
  const played = align(grid, perfect(grid), settings);

  it('has every slot matched by its own stroke, on time', () => {
    expect(played.outcomes.length).toBe(64);
    played.outcomes.forEach((outcome, i) => {
      expect(outcome).toEqual({ status: 'matched', stroke: i, deviationMs: 0, wrongHand: false });
    });
  });

  it('has no offset, no extra, no slip, and fits', () => {
    expect(played.offsetMs).toBeCloseTo(0, 9);
    expect(played.limitGaps).toBe(0.4);
    expect(played.extras).toEqual([]);
    expect(played.slips).toEqual([]);
    expect(played.slipsNotToldBecause).toBeNull();
    expect(played.misfit).toBeNull();
  });
});

describe('what becomes of a stroke', () => {
  const grid = sixteenths([ACCENT_ON_1], 4);

  it('a lost stroke is one miss, and the others keep their slots', () => {
    const strokes = perfect(grid).filter((_, i) => i !== 9);
    const { outcomes, extras } = align(grid, strokes, settings);
    expect(outcomes[9]).toEqual({ status: 'missed' });
    expect(outcomes[10]).toMatchObject({ status: 'matched', stroke: 9 });
    expect(outcomes.filter((o) => o.status === 'matched').length).toBe(63);
    expect(extras).toEqual([]);
  });

  it('an added stroke is one extra in the bar it falls in', () => {
    const strokes = [...perfect(grid), stroke(2062)].sort((a, b) => a.atMs - b.atMs);
    const { extras, outcomes } = align(grid, strokes, settings);
    expect(extras).toEqual([{ stroke: 17, bar: 1 }]);
    expect(outcomes.every((o) => o.status === 'matched')).toBe(true);
  });

  it('a stroke before the first bar belongs to bar 0, one after the last to the last', () => {
    const strokes = [stroke(-900), ...perfect(grid), stroke(9000)];
    expect(align(grid, strokes, settings).extras).toEqual([
      { stroke: 0, bar: 0 },
      { stroke: 65, bar: 3 },
    ]);
  });

  it('a wrong hand in the right place is matched, wrong hand: one fault, not a miss and an extra', () => {
    const strokes = perfect(grid).map(
      (one, i) => ({ ...one, hand: i === 5 ? 'L' : grid.slots[i].hand }) as const,
    );
    const { outcomes, extras } = align(grid, strokes, settings);
    expect(grid.slots[5].hand).toBe('R');
    expect(outcomes[5]).toEqual({ status: 'matched', stroke: 5, deviationMs: 0, wrongHand: true });
    expect(outcomes.filter((o) => o.status === 'matched' && o.wrongHand).length).toBe(1);
    expect(extras).toEqual([]);
  });

  it('a hand nobody knows is never wrong', () => {
    const { outcomes } = align(grid, perfect(grid), settings);
    expect(outcomes.some((o) => o.status === 'matched' && o.wrongHand)).toBe(false);
  });

  it('deviation keeps the offset: a take 20 ms late is late by 20 ms in every slot', () => {
    const late = perfect(grid).map((one) => ({ ...one, atMs: one.atMs + 20 }));
    const { offsetMs, outcomes } = align(grid, late, settings);
    expect(offsetMs).toBeCloseTo(20, 9);
    expect(outcomes[7]).toMatchObject({ status: 'matched', stroke: 7, deviationMs: 20 });
  });

  it('negative is early', () => {
    const strokes = perfect(grid).map((one, i) => (i === 8 ? { ...one, atMs: one.atMs - 30 } : one));
    expect(align(grid, strokes, settings).outcomes[8]).toMatchObject({ deviationMs: -30 });
  });
});

describe('echo-like strokes', () => {
  const grid = sixteenths([ACCENT_ON_1], 2);

  it('one that no slot is left for stays an echo, not an extra', () => {
    const strokes = [...perfect(grid), stroke(60, { echoLike: true, levelDb: -24 })].sort(
      (a, b) => a.atMs - b.atMs,
    );
    const { echoes, extras, outcomes } = align(grid, strokes, settings);
    expect(echoes).toEqual([1]);
    expect(extras).toEqual([]);
    expect(outcomes[1]).toMatchObject({ status: 'matched', stroke: 2 });
  });

  it('one within half a gap of an empty slot is a stroke after all', () => {
    const strokes = perfect(grid).map((one, i) =>
      i === 1 ? stroke(90, { echoLike: true, levelDb: -24 }) : one,
    );
    const { echoes, outcomes } = align(grid, strokes, settings);
    expect(echoes).toEqual([]);
    expect(outcomes[1]).toMatchObject({ status: 'matched', stroke: 1, deviationMs: -35 });
  });

  it('one over half a gap from the empty slot does not fill it', () => {
    const strokes = perfect(grid).map((one, i) =>
      i === 1 ? stroke(62, { echoLike: true, levelDb: -24 }) : one,
    );
    const { echoes, outcomes } = align(grid, strokes, settings);
    expect(echoes).toEqual([1]);
    expect(outcomes[1]).toEqual({ status: 'missed' });
  });

  it('they have no say in the offset', () => {
    const strokes = perfect(grid).flatMap((one) => [
      one,
      stroke(one.atMs + 45, { echoLike: true, levelDb: -40 }),
    ]);
    const { offsetMs, echoes } = align(grid, strokes, settings);
    expect(offsetMs).toBeCloseTo(0, 9);
    expect(echoes.length).toBe(32);
  });
});

describe('too soft for this pad', () => {
  const grid = sixteenths([ACCENT_ON_1], 2);
  // Slot 2 is the right hand's tap in Rlrr; its neighbours of the same hand are slots 0 and 3.
  const without = (slot: number, levels: Record<number, number>) =>
    perfect(grid)
      .map((one, i) => ({ ...one, levelDb: levels[i] ?? one.levelDb }))
      .filter((_, i) => i !== slot);

  it('a lost tap between two strokes within 4 dB of the threshold is too soft, not a miss', () => {
    const { outcomes } = align(grid, without(2, { 0: -47, 3: -46 }), settings, { thresholdDb: -50 });
    expect(outcomes[2]).toEqual({ status: 'tooSoft' });
  });

  it('one neighbour well above the threshold makes it a miss', () => {
    const { outcomes } = align(grid, without(2, { 0: -47, 3: -45 }), settings, { thresholdDb: -50 });
    expect(outcomes[2]).toEqual({ status: 'missed' });
  });

  it('without a learned threshold it is the level of velocity 6: −53.0 dB, so −49.1 is near and −49.0 is not', () => {
    // 40·log10(6/127) = −53.027: the level law of General MIDI 2 / DLS / SoundFont 2.
    expect(align(grid, without(2, { 0: -49.1, 3: -49.1 }), settings).outcomes[2].status).toBe('tooSoft');
    expect(align(grid, without(2, { 0: -49.0, 3: -49.0 }), settings).outcomes[2].status).toBe('missed');
  });

  it('a lost accent is never too soft', () => {
    const { outcomes } = align(grid, without(8, { 7: -50, 11: -50, 3: -50 }), settings, { thresholdDb: -50 });
    expect(outcomes[8]).toEqual({ status: 'missed' });
  });
});

describe('input', () => {
  const grid = sixteenths([ACCENT_ON_1], 1);

  it('times that go backwards are refused by place, rule and value', () => {
    expect(() => align(grid, [stroke(100), stroke(99)], settings)).toThrow(
      'strokes[1].atMs must be a number not before the stroke before, got 99',
    );
    expect(() => align(grid, [stroke(NaN)], settings)).toThrow('strokes[0].atMs');
  });

  it('no stroke at all is sixteen misses and does not fit', () => {
    const nothing = align(grid, [], settings);
    expect(statuses(nothing)).toEqual(Array.from({ length: 16 }, () => 'missed'));
    expect(nothing.misfit).toEqual({ reason: 'unpaired' });
    expect(nothing.offsetMs).toBe(0);
  });

  it('changes nothing it was given', () => {
    const strokes = Object.freeze(perfect(grid).map((one) => Object.freeze(one)));
    align(Object.freeze(grid), strokes, settings);
    expect(strokes[1].atMs).toBe(125);
  });
});
