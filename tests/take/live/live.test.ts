import { Subject, VirtualTimeScheduler } from 'rxjs';
import { describe, expect, it } from 'vitest';
import { gridOf } from '../../../src/exercises/grid';
import type { Phrase } from '../../../src/exercises/types';
import { replay } from '../../../src/midi/replay';
import { gradeTake } from '../../../src/take/grade-take';
import { live } from '../../../src/take/live/live';
import { liveSteps } from '../../../src/take/live/step';
import { modelTake } from '../../../src/model/model-player';
import { modelRig } from '../../../src/model/model-rig';
import { rigAsVoiced } from '../../../src/take/voiced-rig';
import { contrastOf, enter, leave, rollingContrast } from '../../../src/take/live/rolling-contrast';
import type { LiveState } from '../../../src/take/types';
import { settingsOf } from '../../../src/settings';
import type { RawHit } from '../../../src/stroke';

// At 120 bpm a sixteenth lasts 125 ms and a bar of four 2000 ms (arithmetic). Levels: 40·log10(v/127), General MIDI 2.
const phrase: Phrase = {
  title: 'Single paradiddle',
  beatsPerBar: 4,
  partialsPerBeat: 4,
  cycles: 40,
  bars: [{ variation: 'accent on 1', sticking: 'Rlrr Lrll Rlrr Lrll' }],
};
const settings = settingsOf('working');
const rig = modelRig(1);
const grid = gridOf(phrase, { bpm: 120 }, 0);
const ACCENT = 120;
const SOFT = 40;

const hit = (atMs: number, velocity: number, note = 38): RawHit => ({
  atMs,
  port: 'Pad',
  channel: 10,
  note,
  velocity,
});
const slotHit = (slot: number, lateMs = 0): RawHit =>
  hit(slot * 125 + lateMs, grid.slots[slot].kind === 'accent' ? ACCENT : SOFT);

function shownAfter(hits: readonly RawHit[], tickMs: number, on = rig): LiveState {
  const { start, step } = liveSteps(grid, on, settings);
  const run = hits.reduce((state, one) => step(state, { kind: 'hit', hit: one }), start);
  return step(run, { kind: 'tick', atMs: tickMs }).shown;
}
const slots = (from: number, to: number, but: readonly number[] = []): RawHit[] =>
  Array.from({ length: to - from }, (_, i) => from + i)
    .filter((slot) => !but.includes(slot))
    .map((slot) => slotHit(slot));

describe('what is shown of a running take', () => {
  it('begins with a place for each of the sixteen slots, and no figure', () => {
    const { start } = liveSteps(grid, rig, settings);
    expect(start.shown).toEqual({
      strokes: 0,
      offsetMs: 0,
      lateMs: 0,
      told: 'all',
      passes: Array.from({ length: 16 }, () => []),
      extras: [],
      contrastDb: null,
      unmapped: 0,
    });
  });

  it('has each stroke in its slot, at its level, one pass a cycle', () => {
    const shown = shownAfter(slots(0, 32), 4050);
    expect(shown.strokes).toBe(32);
    expect(shown.passes.every((passes) => passes.map((pass) => pass.cycle).join() === '0,1')).toBe(true);
    expect(shown.passes[0][0].levelDb).toBeCloseTo(40 * Math.log10(120 / 127), 9);
    expect(shown.passes[1][1]).toMatchObject({ status: 'matched', wrongHand: false });
    expect(shown.passes[1][1].deviationMs).toBeCloseTo(0, 6);
  });

  it('shows a slot that was missed once its time is over', () => {
    const shown = shownAfter(slots(0, 32, [21]), 4100);
    expect(shown.passes[5].map((pass) => pass.status)).toEqual(['matched', 'missed']);
    expect(shown.passes[5][1]).toEqual({
      cycle: 1,
      status: 'missed',
      levelDb: null,
      deviationMs: null,
      wrongHand: false,
    });
  });

  it('shows misses by ticks alone, and all of the last bar at the end', () => {
    expect(shownAfter(slots(0, 4), 1400).passes[6]).toMatchObject([{ status: 'missed' }]);
    expect(shownAfter(slots(0, 4), 400).passes[6]).toEqual([]);
    expect(shownAfter(slots(0, 4), Infinity).passes[15]).toMatchObject([{ status: 'missed' }]);
  });

  it('shows an extra where in its bar it fell', () => {
    const hits = [...slots(0, 32), hit(2000 + 4 * 125 + 60, 70)].sort((a, b) => a.atMs - b.atMs);
    const shown = shownAfter(hits, 4100);
    expect(shown.extras).toHaveLength(1);
    expect(shown.extras[0]).toMatchObject({ cycle: 1, barInCycle: 0 });
    expect(shown.extras[0].at).toBeCloseTo(560 / 2000, 2);
  });

  it('keeps eight passes of each slot, the newest last', () => {
    const shown = shownAfter(slots(0, 16 * 12), 24_100);
    expect(shown.passes[3].map((pass) => pass.cycle)).toEqual([4, 5, 6, 7, 8, 9, 10, 11]);
  });

  it('leaves out what was played along with the count-in, but counts a note no surface owns', () => {
    const shown = shownAfter([hit(-1000, 90), hit(-500, 90, 36), ...slots(0, 16)], 2100);
    expect(shown.strokes).toBe(16);
    expect(shown.unmapped).toBe(1);
    expect(shown.extras).toEqual([]);
  });

  it('shows a take begun a beat late in its slots, and says by how much', () => {
    const twoAccents: Phrase = {
      ...phrase,
      bars: [...phrase.bars, { variation: 'accent on 2', sticking: 'rLrr lRll rLrr lRll' }],
    };
    const walk = gridOf(twoAccents, { bpm: 120 }, 0);
    const hits = walk.slots
      .slice(0, 64)
      .map((slot) => hit(slot.atMs + 500, slot.kind === 'accent' ? ACCENT : SOFT));
    const { start, step } = liveSteps(walk, rig, settings);
    const run = hits.reduce((state, one) => step(state, { kind: 'hit', hit: one }), start);
    const { shown } = step(run, { kind: 'tick', atMs: Infinity });
    expect(shown).toMatchObject({ lateMs: 500, told: 'all', extras: [] });
    for (const passes of shown.passes) {
      expect(passes.map(({ cycle, status }) => [cycle, status])).toEqual([
        [0, 'matched'],
        [1, 'matched'],
      ]);
      for (const { deviationMs } of passes) expect(deviationMs).toBeCloseTo(0, 6);
    }
  });

  it('shows nobody early or late who plays triplets where sixteenths are due', () => {
    const triplets = Array.from({ length: 72 }, (_, i) => hit((i * 500) / 3, SOFT));
    const shown = shownAfter(triplets, Infinity);
    expect(shown.told).toBe('nothing');
    const heard = shown.passes.flat().filter(({ status }) => status === 'matched');
    expect(heard.length).toBeGreaterThan(40);
    expect(heard.every(({ deviationMs }) => deviationMs === null)).toBe(true);
  });

  it('takes a forerunner back when the louder stroke comes', () => {
    const { start, step } = liveSteps(grid, rig, settings);
    let run = slots(0, 20).reduce((state, one) => step(state, { kind: 'hit', hit: one }), start);
    run = step(run, { kind: 'hit', hit: hit(20 * 125 - 5, 45) });
    expect(run.shown.passes[4][1].levelDb).toBeCloseTo(40 * Math.log10(45 / 127), 9);
    run = step(run, { kind: 'hit', hit: hit(20 * 125, 120) });
    expect(run.shown.passes[4][1].levelDb).toBeCloseTo(40 * Math.log10(120 / 127), 9);
    expect(run.shown.strokes).toBe(21);
    expect(run.shown.extras).toEqual([]);
  });

  it('takes the rig’s delays off, of hits and of ticks', () => {
    const slow = { ...rig, inputDelayMs: 10, outputDelayMs: 30 };
    const late = slots(0, 32).map((one) => ({ ...one, atMs: one.atMs + 40 }));
    expect(shownAfter(late, 4140, slow)).toEqual(shownAfter(slots(0, 32), 4100));
  });

  it('tells the wrong hand where each hand has a surface', () => {
    const two = modelRig(2);
    const hits = slots(0, 16).map((one, i) => ({
      ...one,
      note: (grid.slots[i].hand === 'R') !== (i === 6) ? 38 : 48,
    }));
    const wrong = shownAfter(hits, 2100, two).passes.flatMap((passes, i) => (passes[0].wrongHand ? [i] : []));
    expect(wrong).toEqual([6]);
  });
});

describe('an hour of play', () => {
  it('needs no room for strokes of cycles gone by, and shows the last eight as the report has them', () => {
    const player = { phrase, bpm: 120, seed: 8, cycles: 60, missed: 0.01, added: 0.02 };
    const { take } = modelTake(player);
    const long = gridOf({ ...phrase, cycles: 60 }, { bpm: 120 }, take.downbeatMs ?? 0);
    const { start, step } = liveSteps(long, take.rig, settings);
    const played = take.hits.reduce((state, one) => step(state, { kind: 'hit', hit: one }), start);
    const { shown, memory } = step(played, { kind: 'tick', atMs: Infinity });
    // Fifty of sixty cycles of sixteen strokes, but for those left out.
    expect(memory.forgotten).toBeGreaterThan(49 * 16 * 0.97);
    const { slots: told } = gradeTake(take);
    const passes = shown.passes.flatMap((of, slot) =>
      of.map((pass) => ({ pass, due: told[pass.cycle * 16 + slot] })),
    );
    expect(passes).toHaveLength(8 * 16);
    expect(passes.every(({ pass }) => pass.cycle >= 52)).toBe(true);
    const right = passes.filter(({ pass, due }) => pass.status === due.status && pass.levelDb === due.level);
    expect(right.length / passes.length).toBeGreaterThanOrEqual(0.99);
  });
});

describe('a wrong drum', () => {
  const toCrash: Phrase = { ...phrase, cycles: 2, voicing: { R: 'snare', L: 'snare', accents: 'crash' } };

  it('is shown where the report counts it, and its level makes no contrast', () => {
    const { take } = modelTake({ phrase: toCrash, bpm: 120, seed: 5 });
    const onCrash = take.hits.flatMap(({ note }, index) => (note === 49 ? [index] : []));
    // The first accent of the second cycle goes to the snare, as softly as a tap.
    const strayed = onCrash[onCrash.length >> 1];
    const hits = take.hits.map((one, index) =>
      index === strayed ? { ...one, note: 38, velocity: 40 } : one,
    );
    const wrongTake = { ...take, hits };
    const voicedGrid = gridOf(toCrash, { bpm: 120 }, take.downbeatMs ?? 0);
    const shownOf = (of: readonly RawHit[]): LiveState => {
      const on = rigAsVoiced(take.rig, toCrash, voicedGrid);
      const { start, step } = liveSteps(voicedGrid, on, settings);
      const run = of.reduce((state, one) => step(state, { kind: 'hit', hit: one }), start);
      return step(run, { kind: 'tick', atMs: of[of.length - 1].atMs + 60 }).shown;
    };
    const shown = shownOf(hits);
    const strays = shown.passes.flatMap((passes, slot) =>
      passes.flatMap(({ wrongSurface, cycle }) => (wrongSurface === true ? [[cycle, slot]] : [])),
    );
    expect(strays).toEqual([[1, 0]]);
    expect(gradeTake(wrongTake).counts.wrongSurface).toBe(1);
    expect(
      shownOf(take.hits)
        .passes.flat()
        .some((pass) => 'wrongSurface' in pass),
    ).toBe(false);
    const without = shownOf(hits.filter((_, index) => index !== strayed));
    expect(shown.contrastDb).toBe(without.contrastDb);
  });
});

describe('deviations that are shown', () => {
  it('have the running offset taken off: all 30 ms late is on time', () => {
    const shown = shownAfter(
      slots(0, 48).map((one) => ({ ...one, atMs: one.atMs + 30 })),
      6150,
    );
    expect(shown.offsetMs).toBeCloseTo(30, 6);
    for (const { deviationMs } of shown.passes.flat()) expect(deviationMs).toBeCloseTo(0, 6);
  });

  it('are negative when early: a stroke 20 ms ahead of its like', () => {
    const hits = slots(0, 64).map((one, i) => ({ ...one, atMs: one.atMs + (i === 50 ? 10 : 30) }));
    const { deviationMs } = shownAfter(hits, 8150).passes[2][3];
    // 1 of 64 strokes moves the mean by a third of a millisecond.
    expect(deviationMs).toBeGreaterThan(-20.1);
    expect(deviationMs).toBeLessThan(-19);
  });

  it('of a unison on one surface too, which has a time and no level', () => {
    const together = { ...phrase, bars: [{ variation: 'u', sticking: '[RL]lrl Rlrl Rlrl Rlrl' }] };
    const of = gridOf(together, { bpm: 120 }, 0);
    const { start, step } = liveSteps(of, rig, settings);
    const run = Array.from({ length: 48 }, (_, i) => hit(i * 125 + 30, i % 4 === 0 ? ACCENT : SOFT)).reduce(
      (state, one) => step(state, { kind: 'hit', hit: one }),
      start,
    );
    const [unison] = step(run, { kind: 'tick', atMs: 6150 }).shown.passes;
    expect(unison[2]).toMatchObject({ status: 'notMeasured', levelDb: null });
    expect(unison[2].deviationMs).toBeCloseTo(0, 6);
    expect(unison[2].struckDb).toBeCloseTo(40 * Math.log10(ACCENT / 127), 9);
  });
});

describe('the contrast that is shown', () => {
  it('is the median of the accents less that of the soft strokes', () => {
    const expected = 40 * Math.log10(ACCENT / 127) - 40 * Math.log10(SOFT / 127);
    expect(shownAfter(slots(0, 16), 2100).contrastDb).toBeCloseTo(expected, 9);
    expect(shownAfter([slotHit(0)], 60).contrastDb).toBeNull();
  });

  it('is of the last two cycles only', () => {
    const louder = slots(0, 64).map((one, i) =>
      i >= 32 && one.velocity === SOFT ? { ...one, velocity: 60 } : one,
    );
    const expected = 40 * Math.log10(ACCENT / 60);
    expect(shownAfter(louder, 8100).contrastDb).toBeCloseTo(expected, 9);
  });

  it('of both of the last two cycles: the median over one loud and one soft', () => {
    const half = slots(0, 48).map((one, i) =>
      one.velocity === SOFT ? { ...one, velocity: i < 16 ? 90 : i < 32 ? 60 : 40 } : one,
    );
    // Cycles 2 and 3 have twelve taps each, of 60 and of 40: the median lies half-way between their levels.
    const middle = (40 * Math.log10(60 / 127) + 40 * Math.log10(40 / 127)) / 2;
    expect(shownAfter(half, 6100).contrastDb).toBeCloseTo(40 * Math.log10(ACCENT / 127) - middle, 9);
  });

  it('counts each level as often as it came: the median of 1, 2, 2, 9 is 2', () => {
    const contrast = rollingContrast();
    for (const level of [2, 9, 1, 2, 5]) enter(contrast.softs, level);
    leave(contrast.softs, 5);
    leave(contrast.softs, 7);
    enter(contrast.accents, 10);
    expect(contrastOf(contrast)).toBe(8);
  });
});

describe('live against the whole take', () => {
  it('by replay agrees with the report on at least 99 % of the slots', () => {
    const { take } = modelTake({ phrase, bpm: 120, seed: 7, cycles: 16, missed: 0.02, added: 0.02 });
    const downbeatMs = take.downbeatMs ?? 0;
    const scheduler = new VirtualTimeScheduler();
    const ticks$ = new Subject<number>();
    const takeGrid = gridOf(take.phrase, take.tempo, downbeatMs);
    const first: LiveState[] = [];
    let last: LiveState | undefined;
    live(
      { grid: takeGrid, rig: take.rig, settings: settingsOf(take.limits) },
      replay(take, downbeatMs, { nowMs: () => scheduler.now(), scheduler }),
      ticks$,
    ).subscribe((state) => {
      first.push(state);
      last = state;
    });
    scheduler.flush();
    ticks$.next(Infinity);

    const report = gradeTake(take);
    const inLastEight = report.slots.filter((slot) => slot.bar >= 8);
    const agree = inLastEight.filter((slot) => {
      const pass = last?.passes[slot.slot].find((one) => one.cycle === slot.bar);
      return pass?.status === slot.status && (pass.levelDb ?? null) === (slot.level ?? null);
    });
    expect(first[0].strokes).toBe(0);
    expect(inLastEight).toHaveLength(128);
    expect(agree.length / inLastEight.length).toBeGreaterThanOrEqual(0.99);
  });

  it('shows nothing anew where nothing changed', () => {
    const ticks$ = new Subject<number>();
    const states: LiveState[] = [];
    live({ grid, rig, settings }, new Subject<RawHit>(), ticks$).subscribe((state) => states.push(state));
    ticks$.next(-2000);
    ticks$.next(-1000);
    expect(states).toHaveLength(1);
  });

  it('begins anew for each subscriber', () => {
    const hits$ = new Subject<RawHit>();
    const shown$ = live({ grid, rig, settings }, hits$, new Subject<number>());
    let one = 0;
    let other = 0;
    shown$.subscribe((state) => (one = state.strokes));
    hits$.next(slotHit(0));
    shown$.subscribe((state) => (other = state.strokes));
    hits$.next(slotHit(1));
    expect([one, other]).toEqual([2, 1]);
  });
});
