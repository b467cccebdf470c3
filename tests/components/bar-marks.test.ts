import { describe, expect, it } from 'vitest';
import { linesOf } from '../../src/components/axis';
import { columnsOf } from '../../src/components/bar-columns';
import { barMarks, type BarScene } from '../../src/components/bar-marks';
import { gridOf } from '../../src/exercises/grid';
import { phraseFromText } from '../../src/exercises/phrase';
import type { LivePass, LiveState } from '../../src/practice/types';
import { settingsOf } from '../../src/settings';

const grid = gridOf(
  phraseFromText('Rlrr', { beatsPerBar: 1, partialsPerBeat: 4, cycles: 1 }),
  { bpm: 60 },
  0,
);
const settings = settingsOf('working');
const scene: BarScene = {
  columns: columnsOf(grid.bars[0], grid.slots),
  barInCycle: 0,
  cycle: 2,
  lines: linesOf(settings),
  settings,
  tapsBesideGhosts: false,
  showTiming: true,
};

const pass = (cycle: number, levelDb: number | null, deviationMs = 0): LivePass => ({
  cycle,
  status: levelDb === null ? 'missed' : 'matched',
  levelDb,
  deviationMs: levelDb === null ? null : deviationMs,
  wrongHand: false,
});

function live(...passes: LivePass[][]): LiveState {
  return { strokes: 0, offsetMs: 0, passes, extras: [], contrastDb: null, unmapped: 0 };
}

describe('the marks of a bar', () => {
  it('a slot has a band before anything was played', () => {
    const marks = barMarks(scene, null);
    expect(marks.bands).toHaveLength(4);
    expect(marks.strokes).toEqual([]);
    expect(marks.bands[0].toY).toBe(1);
    expect(marks.bands[1].fromY).toBe(0);
  });

  it('early is left and late is right of the slot, 30 ms at its edge and no farther', () => {
    const at = (ms: number) => barMarks(scene, live([pass(2, -4, ms)], [], [], [])).strokes[0].x;
    expect(at(0)).toBeCloseTo(0.0625, 9);
    expect(at(-30)).toBeCloseTo(0, 9);
    expect(at(30)).toBeCloseTo(0.125, 9);
    expect(at(80)).toBe(at(30));
    expect(at(15)).toBeCloseTo(0.09375, 9);
  });

  it('stands in the middle with early and late off', () => {
    const marks = barMarks({ ...scene, showTiming: false }, live([pass(2, -4, -22)], [], [], []));
    expect(marks.strokes[0].x).toBeCloseTo(0.0625, 9);
  });

  it('a tap of -13 dB is out, from the edge of its band at -16 dB, and one of -16 dB is in', () => {
    const [out] = barMarks(scene, live([], [pass(2, -13)], [], [])).strokes;
    const [inside] = barMarks(scene, live([], [pass(2, -16)], [], [])).strokes;
    expect(out.edgeY).toBeCloseTo(0.4545, 4);
    expect(out.y).toBeGreaterThan(0.5);
    expect(inside.edgeY).toBeNull();
  });

  it('passes gone by are older and never marked as out, the newest is drawn last', () => {
    const { strokes } = barMarks(scene, live([], [pass(0, -10), pass(1, -20), pass(2, -21)], [], []));
    expect(strokes.map((stroke) => stroke.age)).toEqual([2, 1, 0]);
    expect(strokes.map((stroke) => stroke.edgeY)).toEqual([null, null, null]);
  });

  it('a slot missed in this cycle is empty, one missed in the last is not', () => {
    const { bands } = barMarks(scene, live([pass(2, null)], [pass(1, null)], [], []));
    expect(bands.map((band) => band.empty)).toEqual(['missed', null, null, null]);
  });

  it('an extra is a tick where it fell, in its own bar only', () => {
    const extras = [
      { cycle: 2, barInCycle: 0, at: 0.4, levelDb: -14 },
      { cycle: 2, barInCycle: 1, at: 0.1, levelDb: -14 },
    ];
    const marks = barMarks(scene, { ...live([], [], [], []), extras });
    expect(marks.extras).toEqual([{ kind: 'extra', x: 0.4, y: 0.5, age: 0 }]);
  });
});
