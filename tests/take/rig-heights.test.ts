import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { gridOf } from '../../src/exercises/grid';
import { gradeTake } from '../../src/take/grade-take';
import { liveSteps } from '../../src/take/live/step';
import { modelTake } from '../../src/model/model-player';
import { heightsOf, pictureLines } from '../../src/take/rig-heights';
import type { Heights } from '../../src/sessions/learned';
import type { Rig } from '../../src/sessions/types';
import { settingsOf } from '../../src/settings';
import { levelDb, velocityOfLevel } from '../../src/units';

const phrase = phraseNamed('Single paradiddle, accent walk');
const { take } = modelTake({ phrase, bpm: 84, seed: 5 });
const grid = gridOf(phrase, take.tempo, 0);
const at = (low: number, half: number, full: number): Heights => ({
  low: { db: low, n: 8 },
  half: { db: half, n: 8 },
  full: { db: full, n: 8 },
});
const rigWith = (more: Partial<Rig['surfaces'][0]>): Rig => ({
  ...take.rig,
  surfaces: [{ ...take.rig.surfaces[0], ...more }],
});
const both = { R: at(-24, -14, -4), L: at(-26, -16, -6) };

describe('the heights in force', () => {
  it('are of both hands, with trims in them', () => {
    const rig = rigWith({ heights: both, trimDb: 1, spots: { R: -0.5, L: 0.5, leftDb: 0.4 } });
    expect(heightsOf(rig, grid)).toEqual([
      { hand: 'R', surface: null, low: -23.5, half: -13.5, full: -3.5 },
      { hand: 'L', surface: null, low: -24.5, half: -14.5, full: -4.5 },
    ]);
    expect(pictureLines(rig, grid)).toEqual({ low: -24, half: -14, full: -4 });
  });

  it('are none where a hand has not shown them, or showed half over full', () => {
    expect(heightsOf(rigWith({ heights: { R: both.R } }), grid)).toBeUndefined();
    expect(heightsOf(rigWith({ heights: { ...both, L: at(-26, -4, -6) } }), grid)).toBeUndefined();
    expect(pictureLines(take.rig, grid)).toBeNull();
  });

  it('need not be of the surface that only starts a take', () => {
    const rig = rigWith({ heights: both });
    const rim = { ...take.rig.surfaces[0], id: 'rim', notes: [37] };
    expect(heightsOf({ ...rig, surfaces: [...rig.surfaces, rim] }, grid)).toBeUndefined();
    expect(
      heightsOf({ ...rig, surfaces: [...rig.surfaces, rim], start: { surface: 'rim' } }, grid),
    ).toHaveLength(2);
  });

  it('are in the report of a take', () => {
    expect(gradeTake({ ...take, rig: rigWith({ heights: both }) }).heights).toEqual({
      low: -25,
      half: -15,
      full: -5,
    });
  });
});

it('trims of landing spots are in the live picture too', () => {
  const levels = (rig: Rig) => {
    const live = gridOf(phrase, take.tempo, take.downbeatMs!);
    const { start, step } = liveSteps(live, rig, settingsOf('working'));
    const run = take.hits.slice(0, 64).reduce((now, hit) => step(now, { kind: 'hit', hit }), start);
    return run.shown.passes[0][0].levelDb!;
  };
  const trimmed = levels(rigWith({ spots: { R: -2, L: 2, leftDb: 0.4 } }));
  expect(trimmed - levels(take.rig)).toBeCloseTo(grid.slots[0].hand === 'R' ? -2 : 2, 10);
});

// The pad's hot spot is taken off
it('trims of landing spots take a hot spot of 4 dB off the balance', () => {
  const hands = gridOf(phrase, take.tempo, 0).slots.map(({ hand }) => hand);
  const { take: made, truth } = modelTake({ phrase, bpm: 84, seed: 5, levelSdDb: 0.3 });
  const rightHits = new Set(truth.hitOfSlot.filter((_, slot) => hands[slot % hands.length] === 'R'));
  const hot = made.hits.map((hit, index) => ({
    ...hit,
    velocity: Math.round(velocityOfLevel(levelDb(hit.velocity) + (rightHits.has(index) ? 2 : -2))),
  }));
  const balanceOf = (rig: Rig) => gradeTake({ ...made, hits: hot, rig }).measures.balanceSoft!.value!;
  expect(balanceOf(take.rig)).toBeCloseTo(4, 0);
  expect(Math.abs(balanceOf(rigWith({ spots: { R: -2, L: 2, leftDb: 0.4 } })))).toBeLessThan(0.5);
});
