import { describe, expect, it } from 'vitest';
import type { Alignment, SlotOutcome } from '../../src/alignment/types';
import { gridOf } from '../../src/exercises/grid';
import type { Grid, Phrase } from '../../src/exercises/types';
import { plainRigOf } from '../model-kit';
import { modelTake } from '../../src/model/model-player';
import type { Rig, Surface } from '../../src/sessions/types';
import { gradeTake } from '../../src/take/grade-take';
import { closestPairNotes, withMergedPairs } from '../../src/take/merged-pairs';

// At 120 bpm a sixteenth lasts 125 ms (arithmetic).
const phrase: Phrase = {
  title: 'One bar',
  beatsPerBar: 4,
  partialsPerBeat: 4,
  cycles: 1,
  bars: [{ variation: 'plain', sticking: 'Rlrr Lrll Rlrr Lrll' }],
};
const grid = gridOf(phrase, { bpm: 120 }, 0);
const pad = (more: Partial<Surface>): Rig => {
  const rig = plainRigOf({ pads: [{ id: 'pad', note: 38 }] });
  return { ...rig, surfaces: rig.surfaces.map((surface) => ({ ...surface, ...more })) };
};
const matched = (stroke: number): SlotOutcome => ({
  status: 'matched',
  stroke,
  deviationMs: 0,
  wrongHand: false,
});
const alignment = (missed: readonly number[]): Alignment => ({
  offsetMs: 0,
  limitGaps: 0.4,
  outcomes: grid.slots.map((_, i) => (missed.includes(i) ? { status: 'missed' } : matched(i))),
  extras: [],
  echoes: [],
  slips: [],
  otherBars: [],
  course: [],
  doubles: [],
  slipsNotToldBecause: null,
  misfit: null,
});
const statuses = (rig: Rig, missed: readonly number[], on: Grid = grid): string[] =>
  withMergedPairs(rig, on, alignment(missed)).outcomes.map(({ status }) => status);

describe('slots closer together than a pad can tell', () => {
  it('a missed slot 125 ms after the one before is not measured on a pad whose closest pair is 126 ms, missed at 125', () => {
    expect(statuses(pad({ closestPairMs: 126 }), [5])[5]).toBe('notMeasured');
    expect(statuses(pad({ closestPairMs: 125 }), [5])[5]).toBe('missed');
    expect(statuses(pad({}), [5])[5]).toBe('missed');
  });

  it('one that was answered stays, and so does the first, which has none before it', () => {
    const all = statuses(pad({ closestPairMs: 200 }), [0, 9]);
    expect(all[0]).toBe('missed');
    expect(all[9]).toBe('notMeasured');
    expect(all.filter((status) => status === 'matched')).toHaveLength(14);
  });

  it('where each hand has its own pad, only what one hand strikes there can merge', () => {
    const rig = plainRigOf({
      pads: [
        { id: 'right', note: 38 },
        { id: 'left', note: 48 },
      ],
    });
    const two = (closestPairMs: number): Rig => ({
      ...rig,
      surfaces: rig.surfaces.map((surface, i) => ({
        ...surface,
        hand: i === 0 ? ('R' as const) : ('L' as const),
        closestPairMs,
      })),
    });
    // `Rlrr`: slot 1 follows the other hand, slot 3 its own.
    expect(statuses(two(150), [1, 3])).toEqual(
      grid.slots.map((_, i) => (i === 1 ? 'missed' : i === 3 ? 'notMeasured' : 'matched')),
    );
  });

  it('a pad under a foot has no part in it', () => {
    expect(statuses(pad({ closestPairMs: 126, foot: 'K' }), [5])[5]).toBe('missed');
  });

  it('in the report they are not measured, not missed', () => {
    const { take } = modelTake({ phrase, bpm: 120, seed: 3, cycles: 8 });
    const hits = take.hits.filter((_, i) => i % 16 !== 3);
    const on = (closestPairMs: number) => ({
      ...take,
      hits,
      rig: { ...take.rig, surfaces: take.rig.surfaces.map((one) => ({ ...one, closestPairMs })) },
    });
    expect(gradeTake(on(126)).counts).toMatchObject({ matched: 120, notMeasured: 8, missed: 0 });
    expect(gradeTake(on(124)).counts).toMatchObject({ matched: 120, notMeasured: 0, missed: 8 });
  });
});

describe('pads that are named because strokes may come too close for them', () => {
  const flams = gridOf(
    { ...phrase, bars: [{ variation: 'f', sticking: '{l}R--- {r}L---' + ' ---- ----' }] },
    { bpm: 60 },
    0,
  );

  it('those whose closest pair is over the smallest distance of two slots', () => {
    expect(closestPairNotes(pad({ closestPairMs: 126 }), grid)).toEqual([
      { id: 'pad', surface: pad({}).surfaces[0].name, closestPairMs: 126 },
    ]);
    expect(closestPairNotes(pad({ closestPairMs: 125 }), grid)).toEqual([]);
  });

  it('any that has learned one, where grace notes are due', () => {
    expect(closestPairNotes(pad({ closestPairMs: 12 }), flams)).toHaveLength(1);
  });

  it('none that has learned none, nor one under a foot', () => {
    expect(closestPairNotes(pad({}), flams)).toEqual([]);
    expect(closestPairNotes(pad({ closestPairMs: 300, foot: 'H' }), grid)).toEqual([]);
  });

  it('the last slot of a cycle and the first of the next count too', () => {
    // Two strokes a bar, at its end and at its start: 500 ms apart within it, 125 ms round the bar line.
    const round = gridOf(
      { ...phrase, cycles: 2, bars: [{ variation: 'r', sticking: 'R--- ---- ---- ---L' }] },
      { bpm: 120 },
      0,
    );
    expect(closestPairNotes(pad({ closestPairMs: 126 }), round)).toHaveLength(1);
  });
});
