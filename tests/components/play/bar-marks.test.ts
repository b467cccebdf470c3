import { describe, expect, it } from 'vitest';
import { linesOf } from '../../../src/sessions/paper/strip/axis';
import { columnsOf } from '../../../src/sessions/paper/strip/columns';
import { barMarks, type BarScene } from '../../../src/components/play/bar-marks';
import { gridOf } from '../../../src/exercises/grid';
import { phraseFromText } from '../../../src/exercises/phrase';
import type { PhraseBar } from '../../../src/exercises/types';
import type { LivePass, LiveState } from '../../../src/take/types';
import { bandContext } from '../../../src/grading/facts/level-bands';
import { settingsOf } from '../../../src/settings';

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
  bands: bandContext(settings, false),
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
  return {
    strokes: 0,
    offsetMs: 0,
    lateMs: 0,
    told: 'all',
    passes,
    extras: [],
    contrastDb: null,
    unmapped: 0,
  };
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

  it('on a wrong drum is struck out, and not told as too loud or too soft', () => {
    const soft = { ...pass(2, -30), wrongSurface: true as const };
    const [mark] = barMarks(scene, live([soft], [], [], [])).strokes;
    expect([mark.wrongSurface, mark.edgeY]).toEqual([true, null]);
    const [plain] = barMarks(scene, live([pass(2, -30)], [], [], [])).strokes;
    expect([plain.wrongSurface, plain.edgeY === null]).toEqual([false, false]);
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

describe('the marks of what is more than plain strokes', () => {
  const bar = (sticking: string, more: Partial<PhraseBar> = {}): BarScene => {
    const bars = [{ variation: 'one', sticking, ...more }];
    const made = gridOf({ title: '', beatsPerBar: 1, partialsPerBeat: 4, cycles: 1, bars }, { bpm: 60 }, 0);
    return { ...scene, columns: columnsOf(made.bars[0], made.slots) };
  };

  // Source: SMF 1.0's table of dynamics, p is velocity 32 and f 96: 40·log10(32/96) = −19.1 dB.
  it('under p a tap’s band ends 19.1 dB lower: a tap of −16 dB, in its band at f, is out', () => {
    const played = live([], [pass(2, -16)], [], []);
    expect(barMarks(bar('Rlrr'), played).strokes[0].edgeY).toBeNull();
    expect(barMarks(bar('Rlrr', { dyn: 'p' }), played).strokes[0].edgeY).toBeCloseTo(0.0208, 4);
  });

  it('two strokes at once have half a column each, R left', () => {
    const marks = barMarks(bar('[RL]lrr'), live([pass(2, -4)], [pass(2, -5)], [], [], []));
    expect(marks.bands).toHaveLength(5);
    expect(marks.strokes.map(({ hand, x, width }) => [hand, x, width])).toEqual([
      ['R', 0.03125, 0.0625],
      ['L', 0.15625, 0.0625],
    ]);
  });

  it('on one pad they are one mark in the middle, of both hands, never out of a band', () => {
    const together: LivePass = { ...pass(2, null), status: 'notMeasured', struckDb: -30 };
    const [mark] = barMarks(bar('[RL]lrr'), live([together], [], [], [], [])).strokes;
    expect(mark).toMatchObject({ hand: 'both', x: 0.0625, width: 0.125, edgeY: null });
  });

  it('where nothing was struck both halves are empty', () => {
    const { bands } = barMarks(bar('[RL]lrr'), live([pass(2, null)], [], [], [], []));
    expect(bands.map(({ empty }) => empty)).toEqual(['missed', 'missed', null, null, null]);
  });

  it('a grace stands as far left of its stroke as it came before it, of its own hand', () => {
    const flam: LivePass = { ...pass(2, -4, 10), graces: [{ levelDb: -20, aheadMs: 25 }] };
    const { graces } = barMarks(bar('{l}Rlrr'), live([flam], [], [], []));
    // 15 ms early: half-way from the middle (0.0975) to the left edge.
    expect(graces).toHaveLength(1);
    expect(graces[0]).toMatchObject({ hand: 'L', width: 0.055, age: 0 });
    expect(graces[0].x).toBeCloseTo(0.04875, 9);
  });
});
