import { describe, expect, it } from 'vitest';
import { gridOf } from '../../../src/exercises/grid';
import { phraseNamed } from '../../../src/exercises/phrase';
import type { Report } from '../../../src/grading/types';
import { parseFault } from '../../../src/model/faults';
import { modelTake } from '../../../src/model/model-player';
import { settingsOf } from '../../../src/settings';
import { gradeTake } from '../../../src/take/grade-take';
import { figureNow } from '../../../src/take/live/figures';
import { liveSteps } from '../../../src/take/live/step';
import type { LiveState } from '../../../src/take/types';

// Model players with one fault of the whole take; the report is what the running take is held against.
const WALK = phraseNamed('Single paradiddle, accent walk');
const settings = settingsOf('working');

function played(
  faults: string,
  seed: number,
  phrase = WALK,
): { shown: LiveState; report: Report; grid: ReturnType<typeof gridOf> } {
  const surfaces = seed % 2 === 0 ? 1 : 2;
  const bpm = [84, 104, 120][seed % 3];
  const { take } = modelTake({
    phrase,
    bpm,
    seed,
    cycles: 8,
    surfaces,
    faults: faults.split(' ').map(parseFault),
  });
  const grid = gridOf({ ...phrase, cycles: 12 }, { bpm }, take.downbeatMs ?? 0);
  const { start, step } = liveSteps(grid, take.rig, settings);
  const run = take.hits.reduce((state, hit) => step(state, { kind: 'hit', hit }), start);
  const { shown } = step(run, { kind: 'tick', atMs: Infinity });
  return { shown, report: gradeTake(take), grid };
}

const happenings = [
  'latency:150',
  'latency:250',
  'late-start:4',
  'late-start:1bar',
  'tempo:0.4',
  'tempo:-1',
  'swing:60',
];
const seeds = [11, 12];

describe('a running take of which something is true as a whole', () => {
  for (const fault of happenings) {
    it(`${fault}: slots have the levels that the report has, nearly all, and no hand is shown early or late`, () => {
      for (const seed of seeds) {
        const { shown, report, grid } = played(fault, seed);
        const perCycle = grid.slotsPerCycle;
        const passes = shown.passes.flatMap((of, slot) =>
          of.map((pass) => ({ pass, due: report.slots[pass.cycle * perCycle + slot] })),
        );
        const right = passes.filter(({ pass, due }) => due !== undefined && pass.levelDb === due.level);
        expect(right.length / report.slots.length).toBeGreaterThanOrEqual(0.99);
        const { R, L } = figureNow('early or late', grid, shown, settings);
        // 6 ms of scatter over the hundred strokes of a hand: a median within 3 ms, as in a take of which nothing is told.
        expect(Math.abs(R ?? 0)).toBeLessThan(5);
        expect(Math.abs(L ?? 0)).toBeLessThan(5);
      }
    });
  }

  it('a late hand is still shown late: 25 ms, half of it either side of the middle', () => {
    for (const seed of seeds) {
      const { shown, grid } = played('late:L:25', seed);
      const { R, L } = figureNow('early or late', grid, shown, settings);
      expect((L ?? 0) - (R ?? 0)).toBeGreaterThan(20);
    }
  });

  it('at three for two nothing is said of early, late and scatter', () => {
    const { shown, grid } = played('rate:3/2', 11);
    expect(shown.told).toBe('nothing');
    const early = figureNow('early or late', grid, shown, settings);
    expect([early.value, early.R, early.L]).toEqual([null, null, null]);
    expect(figureNow('scatter', grid, shown, settings).value).toBeNull();
  });

  it('in singles that swing nothing is said of the hands, for they may as well be late', () => {
    const { shown, grid } = played('swing:62', 11, phraseNamed('single stroke roll'));
    const { value, R, L } = figureNow('early or late', grid, shown, settings);
    expect([R, L]).toEqual([null, null]);
    expect(value).not.toBeNull();
  });
});
