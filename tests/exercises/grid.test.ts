import { describe, expect, it } from 'vitest';
import { gridOf } from '../../src/exercises/grid';
import { phraseFromText, phraseNamed } from '../../src/exercises/phrase';
import { partialMs } from '../../src/units';

const WALK = phraseNamed('Single paradiddle, accent walk');

describe('tempo arithmetic (check-values section 6)', () => {
  it.each([
    [120, 4, 125],
    [90, 4, 166.667],
    [84, 4, 178.571],
    [100, 5, 120],
    [140, 6, 71.429],
    [200, 8, 37.5],
  ])('at %d bpm one of %d partials lasts %d ms', (bpm, partials, ms) => {
    expect(partialMs(bpm, partials)).toBeCloseTo(ms, 3);
  });
});

describe('the grid', () => {
  const grid = gridOf(WALK, { bpm: 120 }, 1000);

  it('has 16 slots in each of 32 bars, 125 ms apart at 120 bpm', () => {
    expect(grid.slots).toHaveLength(16 * 32);
    expect(grid.slots[1].atMs - grid.slots[0].atMs).toBe(125);
    expect(grid.slots[0].atMs).toBe(1000);
    expect(grid.bars[31].endMs).toBe(1000 + 32 * 2000);
    expect(grid.smallestGapMs).toBe(125);
    expect(grid.regular).toBe(true);
  });

  it('names bar, cycle, place, beat and partial', () => {
    const slot = grid.slots[16 * 5 + 11];
    expect([
      slot.bar,
      slot.cycle,
      slot.barInCycle,
      slot.slot,
      slot.place,
      slot.beat,
      slot.partialInBeat,
    ]).toEqual([5, 1, 1, 11, 3, 2, 3]);
    expect(slot.variation).toBe('accent on 2');
  });

  it('tells full, down, tap and up strokes by the same hand’s next stroke (common practice, no source)', () => {
    // Accent on 1: R l r r | L r l l: R's strokes in order: R(accent) r r r(next bar's beat) …
    const types = grid.slots.slice(0, 8).map((slot) => `${slot.hand}${slot.type}`);
    expect(types).toEqual(['Rdown', 'Lup', 'Rtap', 'Rtap', 'Ldown', 'Rup', 'Ltap', 'Ltap']);
  });

  it('lets the last stroke of each hand in a take be full or tap', () => {
    const last = grid.slots.slice(-16);
    expect(last.findLast((slot) => slot.hand === 'L')?.type).toBe('full');
    expect(last.findLast((slot) => slot.hand === 'R')?.type).toBe('tap');
  });

  it('counts a hand’s rest over 700 ms as its end', () => {
    const slow = phraseFromText('R-l-', { beatsPerBar: 4, partialsPerBeat: 1, cycles: 4 });
    expect(gridOf(slow, { bpm: 60 }, 0).slots[0].type).toBe('full');
    const quick = phraseFromText('Rl', { beatsPerBar: 2, partialsPerBeat: 1, cycles: 4 });
    expect(gridOf(quick, { bpm: 200 }, 0).slots[1].type).toBe('tap');
  });

  it('moves every second partial with swing', () => {
    const swung = { ...WALK, swing: 2 / 3 };
    const slots = gridOf(swung, { bpm: 60 }, 0, 1).slots;
    expect(slots[1].atMs).toBeCloseTo(333.333, 3);
    expect(slots[2].atMs).toBeCloseTo(500, 6);
  });

  it('follows a ramp, straight in ms a beat', () => {
    const bars = gridOf(
      WALK,
      {
        ramp: [
          { bar: 0, bpm: 60 },
          { bar: 1, bpm: 120 },
        ],
      },
      0,
      2,
    ).bars;
    // Beats start at bar 0, ¼, ½, ¾ of the way from 1000 to 500 ms.
    expect(bars[0].beatsMs).toEqual([0, 1000, 1875, 2625]);
    expect(bars[1].startMs).toBe(2625 + 625);
    expect(bars[1].beatsMs[1] - bars[1].startMs).toBe(500);
  });

  it('has no slot for a rest', () => {
    const grid3 = gridOf(
      phraseFromText('R-lr', { beatsPerBar: 1, partialsPerBeat: 4, cycles: 2 }),
      { bpm: 60 },
      0,
    );
    expect(grid3.slots.map((slot) => [slot.slot, slot.partial])).toEqual([
      [0, 0],
      [1, 2],
      [2, 3],
      [0, 0],
      [1, 2],
      [2, 3],
    ]);
    expect(grid3.regular).toBe(false);
  });

  it('has the graces of a slot with it', () => {
    const drag = phraseFromText('{ll}Rlrl', { beatsPerBar: 1, partialsPerBeat: 4, cycles: 2 });
    expect(gridOf(drag, { bpm: 60 }, 0).slots.map((slot) => slot.graces.length)).toEqual([
      2, 0, 0, 0, 2, 0, 0, 0,
    ]);
  });

  it('has both notes of a unison at one time, the right hand first, and gaps to other times', () => {
    const both = phraseFromText('[Rl]lrl', { beatsPerBar: 1, partialsPerBeat: 4, cycles: 2 });
    const { slots, smallestGapMs, regular } = gridOf(both, { bpm: 60 }, 0);
    expect(slots.map(({ hand, kind, atMs, gapMs, together }) => [hand, kind, atMs, gapMs, together])).toEqual(
      [0, 1000].flatMap((startMs) => [
        ['R', 'accent', startMs, 250, 2],
        ['L', 'tap', startMs, 250, 2],
        ['L', 'tap', startMs + 250, 250, 1],
        ['R', 'tap', startMs + 500, 250, 1],
        ['L', 'tap', startMs + 750, 250, 1],
      ]),
    );
    expect([smallestGapMs, regular]).toEqual([250, true]);
  });

  it('has the feet apart from the hands, their line over and over across the bars', () => {
    const feet = {
      ...phraseFromText('Rlrl Rlrl', { beatsPerBar: 2, partialsPerBeat: 4, cycles: 2 }),
      feet: 'K-h',
    };
    const grid5 = gridOf(feet, { bpm: 60 }, 0);
    expect(grid5.slots).toHaveLength(16);
    expect(
      grid5.feet.map(({ foot, soft, atMs, bar }) => `${foot} ${soft ? 'soft' : 'loud'} ${atMs} ${bar}`),
    ).toEqual([
      'K loud 0 0',
      'H soft 500 0',
      'K loud 750 0',
      'H soft 1250 0',
      'K loud 1500 0',
      'H soft 2000 1',
      'K loud 2250 1',
      'H soft 2750 1',
      'K loud 3000 1',
      'H soft 3500 1',
      'K loud 3750 1',
    ]);
    expect(grid5.feet[0].gapMs).toBe(750);
    expect(gridOf({ ...feet, feet: 'K-- --- ---' }, { bpm: 60 }, 0).feet[0].gapMs).toBe(1000);
    expect(() => gridOf({ ...feet, feet: 'K-x' }, { bpm: 60 }, 0)).toThrow(
      'phrase.feet: line 1, column 3 must be K',
    );
  });

  it('has nothing due in bars to listen to or to count aloud (call and response)', () => {
    const [bar] = phraseFromText('Rlrl', { beatsPerBar: 1, partialsPerBeat: 4, cycles: 1 }).bars;
    const call = {
      title: 'call and response',
      beatsPerBar: 1,
      partialsPerBeat: 4,
      cycles: 2,
      bars: [{ ...bar, role: 'listen' as const }, bar, { ...bar, role: 'say' as const }],
    };
    const { bars, slots, slotsPerCycle } = gridOf(call, { bpm: 60 }, 0);
    expect(bars.map(({ role, slots: due }) => [role, due])).toEqual([
      ['listen', 0],
      ['play', 4],
      ['say', 0],
      ['listen', 0],
      ['play', 4],
      ['say', 0],
    ]);
    expect([slots[0].atMs, slots[4].atMs, slotsPerCycle]).toEqual([1000, 4000, 4]);
  });

  it('has the surface of each slot where the voicing says it', () => {
    const voicing = { R: 'snare', L: 'snare', accents: 'crash' };
    const kit = { ...phraseFromText('Rlrr', { beatsPerBar: 1, partialsPerBeat: 4, cycles: 1 }), voicing };
    expect(gridOf(kit, { bpm: 60 }, 0).slots.map(({ surface }) => surface)).toEqual([
      'crash',
      'snare',
      'snare',
      'snare',
    ]);
    expect(gridOf({ ...kit, voicing: { R: 'snare' } }, { bpm: 60 }, 0).slots[1].surface).toBeNull();
  });
});
