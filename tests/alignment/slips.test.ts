import { describe, expect, it } from 'vitest';
import { align } from '../../src/alignment/align';
import type { AlignStroke } from '../../src/alignment/types';
import type { Grid } from '../../src/exercises/types';
import { settingsOf } from '../../src/settings';
import { ACCENT_ON_1, ACCENT_ON_2, ACCENTS_OFF, perfect, sixteenths, stroke } from './made';

const settings = settingsOf('working');

/** The pattern played `lag` places ahead in slots `from` up to and without `to`, each stroke on time. */
function slipped(grid: Grid, from: number, to: number, lag: number): AlignStroke[] {
  return grid.slots.map((slot, i) => {
    const played = grid.slots[i >= from && i < to ? (i + lag) % grid.slots.length : i];
    return stroke(slot.atMs, { levelDb: played.kind === 'accent' ? -4 : -20 });
  });
}

describe('slips', () => {
  const grid = sixteenths([ACCENT_ON_1], 8);

  it('a stroke dropped in bar 3, and on with the pattern one place ahead, is one slip from its first displaced accent', () => {
    // Slot 32 begins bar 3; played ahead, its accent comes a sixteenth early: on slot 35, where a tap is due.
    const { slips, slipsNotToldBecause } = align(grid, slipped(grid, 33, 64, 1), settings);
    expect(slipsNotToldBecause).toBeNull();
    expect(slips).toEqual([{ bar: 2, slot: 3, slots: 29, lag: 1 }]);
  });

  it('a stroke added, and on with the pattern behind, has lag −1', () => {
    const { slips } = align(grid, slipped(grid, 32, 64, -1), settings);
    expect(slips).toEqual([{ bar: 2, slot: 0, slots: 30, lag: -1 }]);
  });

  it('its slots are slipped, not matched, missed or extra', () => {
    const { outcomes, extras } = align(grid, slipped(grid, 33, 64, 1), settings);
    expect(outcomes.filter((o) => o.status === 'slipped').length).toBe(29);
    expect(outcomes[35]).toEqual({ status: 'slipped', stroke: 35, deviationMs: 0 });
    expect(outcomes[34].status).toBe('matched');
    expect(outcomes[64].status).toBe('matched');
    expect(extras).toEqual([]);
  });

  it('a lost stroke in the slipped stretch is slipped without a stroke', () => {
    const strokes = slipped(grid, 33, 64, 1).filter((_, i) => i !== 45);
    expect(align(grid, strokes, settings).outcomes[45]).toEqual({
      status: 'slipped',
      stroke: null,
      deviationMs: null,
    });
  });

  it('a take that starts off the pattern slips from its first displaced accent', () => {
    const { slips } = align(grid, slipped(grid, 0, 128, 1), settings);
    expect(slips.length).toBe(1);
    expect(slips[0]).toMatchObject({ bar: 0, slot: 0, lag: 1 });
  });

  it('where accents repeat every four slots, three ahead is named as one behind', () => {
    expect(align(grid, slipped(grid, 32, 64, 3), settings).slips).toMatchObject([{ lag: -1 }]);
  });

  it('one displaced accent is no slip', () => {
    const strokes = perfect(grid).map((one, i) =>
      i === 40 ? { ...one, levelDb: -20 } : i === 41 ? { ...one, levelDb: -4 } : one,
    );
    expect(align(grid, strokes, settings).slips).toEqual([]);
  });

  it('known hands show a take begun with the wrong lead: half a pattern, four places, off', () => {
    const plain = sixteenths([ACCENTS_OFF], 4);
    const strokes = plain.slots.map((slot) => stroke(slot.atMs, { hand: slot.hand === 'R' ? 'L' : 'R' }));
    const { slips, outcomes } = align(plain, strokes, settings);
    expect(slips).toEqual([{ bar: 0, slot: 0, slots: 64, lag: 4 }]);
    expect(outcomes.some((o) => o.status === 'matched')).toBe(false);
  });

  it('known hands show a slip without any accent', () => {
    const plain = sixteenths([ACCENTS_OFF], 4);
    const strokes = plain.slots.map((slot, i) =>
      stroke(slot.atMs, { hand: plain.slots[i >= 20 && i < 44 ? i + 1 : i].hand }),
    );
    expect(align(plain, strokes, settings).slips).toMatchObject([{ bar: 1, lag: 1 }]);
  });
});

describe('what a slip costs', () => {
  // One accent in 16 slots. Played k places ahead for some bars, each displaced accent makes two slots that fit only there:
  // one due soft and struck loud, one due loud and struck soft. A slot is worth 3 (1.5 for, 1.5 not against), and the way
  // there costs 5 + ½·|k|; what is less than 9 better than no slip is dropped. Arithmetic on grading.md section 4.
  const grid = sixteenths(['Rlrl rlrl rlrl rlrl'], 8);
  /** Bars 2, 3 … with their accent `lag` slots early (or, for a lag under 0, late); `half`: of the last only the loud stroke. */
  const displaced = (lag: number, accents: number, half: boolean): AlignStroke[] =>
    perfect(grid)
      .map((one, i) => {
        const bars = Array.from({ length: accents + (half ? 1 : 0) }, (_, k) => 16 * (2 + k));
        if (bars.includes(i + lag)) return { ...one, levelDb: -4 };
        return bars.includes(i) ? { ...one, levelDb: -20 } : one;
      })
      .filter((_, i) => !(half && i === 16 * (2 + accents)));
  const lagsOf = (strokes: readonly AlignStroke[]): number[] =>
    align(grid, strokes, settings).slips.map(({ lag }) => lag);

  it.each([1, 2, -1, -2])('5 slots are 15: less 5 + ½·%d just enough', (lag) => {
    expect(lagsOf(displaced(lag, 2, true))).toEqual([lag]);
  });

  it.each([3, -3])('but at lag %d only 8.5, and are dropped; 6 slots are enough', (lag) => {
    expect(lagsOf(displaced(lag, 2, true))).toEqual([]);
    expect(lagsOf(displaced(lag, 3, false))).toEqual([lag]);
  });

  it('4 slots are 12 and never enough', () => {
    for (const lag of [1, 2, 3, -1, -2, -3]) expect(lagsOf(displaced(lag, 2, false))).toEqual([]);
  });

  it('a shift by four places is none that is looked for', () => {
    expect(lagsOf(displaced(4, 5, false))).toEqual([]);
    expect(lagsOf(displaced(3, 5, false))).toEqual([3]);
  });
});

describe('slips are not looked for', () => {
  it('without accents and known hands', () => {
    const plain = sixteenths([ACCENTS_OFF], 4);
    const played = align(plain, perfect(plain), settings);
    expect(played.slips).toEqual([]);
    expect(played.slipsNotToldBecause).toBe('no accents');
  });

  it('where accents are no louder than taps by 1.5 spreads', () => {
    const grid = sixteenths([ACCENT_ON_1, ACCENT_ON_2], 4);
    // Levels that go up and down by 4 dB whatever is due.
    const flat = grid.slots.map((slot, i) => stroke(slot.atMs, { levelDb: -12 + 4 * Math.sin(2.4 * i) }));
    const played = align(grid, flat, settings);
    expect(played.slips).toEqual([]);
    expect(played.slipsNotToldBecause).toBe('accents not told from taps');
  });
});
