import { describe, expect, it } from 'vitest';
import { phraseFromText, phraseNamed } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';
import { gradeTake } from '../../src/practice/grade-take';
import { liveSteps } from '../../src/practice/live-step';
import { modelTake, type ModelPlayer } from '../../src/practice/model-player';
import { rigAsVoiced } from '../../src/practice/voiced-rig';
import type { Take } from '../../src/sessions/types';
import { settingsOf } from '../../src/settings';

const PARADIDDLES = { ...phraseNamed('Single paradiddle, accent walk'), cycles: 4 };

const typed = (text: string, cycles = 16): Phrase =>
  phraseFromText(text, { beatsPerBar: 2, partialsPerBeat: 4, cycles });

const graded = (phrase: Phrase, player: Partial<ModelPlayer> = {}) => {
  const made = modelTake({ phrase, bpm: 90, seed: 3, ...player });
  return { ...made, report: gradeTake(made.take) };
};

/** What is shown at the end of a take that was followed hit by hit. */
function followed(take: Take, phrase: Phrase, grid: ReturnType<typeof modelTake>['grid']) {
  const rig = rigAsVoiced(take.rig, phrase, grid);
  const { start, step } = liveSteps(grid, rig, settingsOf('working'));
  const run = take.hits.reduce((state, hit) => step(state, { kind: 'hit', hit }), start);
  return step(run, { kind: 'tick', atMs: Infinity }).shown;
}

describe('swing and ramps lie in the grid', () => {
  it('grades swung sixteenths clean where the phrase swings, and says swung where it does not', () => {
    const swung = { ...PARADIDDLES, swing: 0.67 };
    const { report, take } = graded(swung);
    expect([report.fits, report.counts.matched, report.counts.extra]).toEqual([true, report.counts.slots, 0]);
    expect(report.measures.scatter?.band).toBe('holds');
    const straight = gradeTake({ ...take, phrase: PARADIDDLES });
    expect([straight.fits, straight.misfit?.reason]).toEqual([false, 'swung']);
  });

  it('grades a take from 60 to 132 bpm and back clean (open–close–open)', () => {
    const ramp = [
      { bar: 0, bpm: 60 },
      { bar: 8, bpm: 132 },
      { bar: 16, bpm: 60 },
    ];
    const { report } = graded(PARADIDDLES, { ramp });
    expect([report.fits, report.counts.matched, report.counts.extra]).toEqual([true, report.counts.slots, 0]);
    expect(report.bars.filter((bar) => bar.held).length).toBe(report.bars.length);
  });
});

describe('unisons', () => {
  const UNISONS = typed('[RL]lrl [Rl]lrl');

  it('are one stroke a hand on two pads: each finds its slot', () => {
    const { report } = graded(UNISONS, { surfaces: 2 });
    expect(report.counts).toMatchObject({
      slots: 160,
      matched: 160,
      missed: 0,
      extra: 0,
      notMeasured: 0,
      wrongHand: 0,
      crosstalk: 0,
    });
    expect(report.measures.scatter?.band).toBe('holds');
  });

  it('tell which hand of a unison is late', () => {
    const { report } = graded(UNISONS, { surfaces: 2, faults: [{ kind: 'late', hand: 'L', ms: 18 }] });
    expect(report.counts.matched).toBe(160);
    expect(Math.abs((report.measures.lag?.value ?? NaN) + 18)).toBeLessThan(2.5);
  });

  it('have a soft left stroke beside a loud right one, and none of it is crosstalk', () => {
    const { report } = graded(typed('[Rl]-(l)- [Rl]-(l)-'), { surfaces: 2, timingSdMs: 1, tapDb: -26 });
    expect([report.counts.crosstalk, report.counts.missed]).toEqual([0, 0]);
  });

  it('are one stroke on one pad: not measured, and never a miss', () => {
    const { report } = graded(UNISONS);
    expect(report.counts).toMatchObject({ slots: 160, matched: 96, notMeasured: 64, missed: 0, extra: 0 });
    expect(report.measures.complete?.value).toBe(1);
  });

  it('that were not played are one stroke missed on one pad, and two on two', () => {
    for (const surfaces of [1, 2] as const) {
      const { take, truth } = graded(UNISONS, { surfaces });
      const gone = new Set([truth.hitOfSlot[10], truth.hitOfSlot[11]]);
      const report = gradeTake({ ...take, hits: take.hits.filter((_, index) => !gone.has(index)) });
      expect(report.counts.missed).toBe(surfaces);
    }
  });

  it('say which hand was missing on two pads', () => {
    const { take, truth } = graded(UNISONS, { surfaces: 2 });
    const report = gradeTake({
      ...take,
      hits: take.hits.filter((_, index) => index !== truth.hitOfSlot[10]),
    });
    expect(report.counts).toMatchObject({ missed: 1, matched: 159, extra: 0 });
    expect(report.slots[10].status).toBe('missed');
  });

  it('show both strokes while playing, as the report has them', () => {
    const { take, grid } = graded(UNISONS, { surfaces: 2, cycles: 6 });
    const shown = followed(take, UNISONS, grid);
    expect(shown.extras).toEqual([]);
    expect(shown.passes.map((passes) => passes.length)).toEqual(shown.passes.map(() => 6));
    expect(shown.passes.flat().every((pass) => pass.status === 'matched' && !pass.wrongHand)).toBe(true);
  });
});

describe('bars to listen to and to count aloud', () => {
  const [bar] = typed('Rlrr Lrll').bars;
  const CALL: Phrase = {
    ...typed('Rlrr Lrll'),
    bars: [{ ...bar, role: 'listen' }, bar, { ...bar, role: 'say' }, bar],
  };

  it('have nothing due, and nothing missed', () => {
    const { report } = graded(CALL, { cycles: 8 });
    expect(report.counts).toMatchObject({ slots: 128, matched: 128, missed: 0, extra: 0 });
    expect(report.fits).toBe(true);
    expect(report.bars.map(({ role }) => role).slice(0, 4)).toEqual(['listen', undefined, 'say', undefined]);
    expect(report.variations[0].bars).toBe(16);
  });

  it('may be played along with: those strokes are not judged', () => {
    const { take } = graded(CALL, { cycles: 8 });
    const all = graded({ ...CALL, bars: CALL.bars.map(() => bar) }, { cycles: 8, seed: 9 }).take;
    const silent = (atMs: number): boolean => {
      const at = (atMs - 4000 + 60) / (8 * (60000 / 90 / 4));
      return Math.floor(at) % 2 === 0 && at >= 0;
    };
    const hits = [...take.hits, ...all.hits.filter(({ atMs }) => silent(atMs))].sort(
      (a, b) => a.atMs - b.atMs,
    );
    const report = gradeTake({ ...take, hits });
    expect(hits.length).toBe(256);
    expect(report.counts).toMatchObject({ slots: 128, matched: 128, missed: 0, extra: 0 });
    const { grid } = modelTake({ phrase: CALL, bpm: 90, seed: 3, cycles: 8 });
    expect(followed({ ...take, hits }, CALL, grid).extras).toEqual([]);
  });
});

describe('dyn', () => {
  it('moves the bands: a phrase played as marked is as good as one without markings', () => {
    const marked: Phrase = {
      ...PARADIDDLES,
      bars: PARADIDDLES.bars.map((one, index) => (index % 2 === 0 ? { ...one, dyn: 'mf < < f' } : one)),
    };
    const { report, take } = graded(marked, { cycles: 8 });
    const without = graded(PARADIDDLES, { cycles: 8 }).report;
    for (const key of ['contrast', 'softness', 'softSpread', 'accentSpread'] as const) {
      expect(
        Math.abs((report.measures[key]?.value ?? NaN) - (without.measures[key]?.value ?? NaN)),
      ).toBeLessThan(0.7);
    }
    expect(report.bars.filter((one) => one.held).length).toBe(report.bars.length);
    const unmarked = gradeTake({ ...take, phrase: { ...PARADIDDLES, cycles: 8 } });
    expect(unmarked.measures.softSpread?.value).toBeGreaterThan(
      1.5 * (report.measures.softSpread?.value ?? NaN),
    );
  });
});
