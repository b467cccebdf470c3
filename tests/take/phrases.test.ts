import { describe, expect, it } from 'vitest';
import { phraseFromText, phraseNamed } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';
import { bundledVoicings, voiced } from '../../src/exercises/voicings';
import { gradeTake } from '../../src/take/grade-take';
import { countWords } from '../../src/components/shared/count-words';
import { liveSteps } from '../../src/take/live/step';
import { modelTake, type ModelPlayer } from '../../src/model/model-player';
import { rigAsVoiced } from '../../src/take/voiced-rig';
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
  it('grades swung sixteenths clean where the phrase swings, and tells the swing where it does not', () => {
    const swung = { ...PARADIDDLES, swing: 0.67 };
    const { report, take } = graded(swung);
    expect([report.fits, report.counts.matched, report.counts.extra]).toEqual([true, report.counts.slots, 0]);
    expect(report.measures.scatter?.band).toBe('holds');
    const straight = gradeTake({ ...take, phrase: PARADIDDLES });
    expect([straight.fits, straight.misfit]).toEqual([true, null]);
    expect(straight.measures.lag?.band).toBe('holds');
    expect(straight.sentence).toMatch(/^You swing: every second note falls at 67 % of its pair\./);
  });

  it('grades a take from 60 to 132 bpm and back clean (open–close–open)', () => {
    const ramp = [
      { bar: 0, bpm: 60 },
      { bar: 8, bpm: 132 },
      { bar: 16, bpm: 60 },
    ];
    const { report } = graded(PARADIDDLES, { ramp });
    expect([report.fits, report.counts.matched, report.counts.extra]).toEqual([true, report.counts.slots, 0]);
    expect(report.bars.filter((bar) => bar.clean).length).toBe(report.bars.length);
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

  it('end a cycle: it was played whole, and its last beat was missed and not broken off', () => {
    const ends: Phrase = { ...CALL, bars: CALL.bars.slice(1, 3) };
    const { take, report, truth } = graded(ends, { cycles: 4 });
    expect(report.cycles).toEqual({ due: 4, played: 4 });
    const gone = new Set(truth.hitOfSlot.slice(-4));
    const broken = gradeTake({ ...take, hits: take.hits.filter((_, index) => !gone.has(index)) });
    expect(broken.counts).toMatchObject({ slots: 32, missed: 4 });
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

describe('feet under everything', () => {
  const FEET: Phrase = { ...PARADIDDLES, feet: 'K--- h---', cycles: 8 };

  it('are a voice of their own: the hands are graded as without them', () => {
    const { report, take } = graded(FEET);
    const alone = graded({ ...PARADIDDLES, cycles: 8 });
    expect(take.hits.length).toBe(alone.take.hits.length + 4 * 32);
    const { feet, ...hands } = report;
    expect(hands).toEqual({ ...alone.report });
    expect(feet?.counts).toEqual({ slots: 128, matched: 128, missed: 0, notMeasured: 0, extra: 0 });
  });

  it('are given their scatter, asynchrony and levels', () => {
    const { feet } = graded(FEET).report;
    // Planted: 6 ms of spread, −4 ms, −8 dB for the bass drum and −20 dB for the soft hi-hat foot.
    expect(Math.abs((feet?.K?.scatter.value ?? NaN) - 6)).toBeLessThan(1.2);
    expect(Math.abs((feet?.K?.asynchrony.value ?? NaN) + 4)).toBeLessThan(1.6);
    expect(Math.abs((feet?.K?.softness?.value ?? NaN) + 8)).toBeLessThan(0.6);
    expect(Math.abs((feet?.H?.softStrokes?.value ?? NaN) + 20)).toBeLessThan(0.6);
    expect([feet?.K?.softStrokes, feet?.H?.softness]).toEqual([undefined, undefined]);
  });

  it('tell what they do to the hands: none here, later and louder where that is planted', () => {
    const { report, take, grid, truth } = graded(FEET);
    expect(Math.abs(report.feet?.hands.deviationMs.value ?? NaN)).toBeLessThan(1.5);
    expect(Math.abs(report.feet?.hands.levelDb.value ?? NaN)).toBeLessThan(0.5);
    const onFeet = new Set(grid.feet.map(({ atMs }) => atMs));
    const dragged = new Set(
      grid.slots.filter(({ atMs }) => onFeet.has(atMs)).map(({ index }) => truth.hitOfSlot[index]),
    );
    const hits = take.hits
      .map((hit, index) => (dragged.has(index) ? { ...hit, atMs: hit.atMs + 12 } : hit))
      .sort((a, b) => a.atMs - b.atMs);
    const late = gradeTake({ ...take, hits }).feet?.hands.deviationMs;
    expect(Math.abs((late?.value ?? NaN) - (report.feet?.hands.deviationMs.value ?? NaN) - 12)).toBeLessThan(
      0.01,
    );
  });

  it('that were left out or added are counted, and never as the hands’', () => {
    const { take, truth } = graded(FEET);
    const gone = new Set(truth.footHits.slice(10, 13));
    const { report } = {
      report: gradeTake({ ...take, hits: take.hits.filter((_, index) => !gone.has(index)) }),
    };
    expect(report.feet?.counts).toMatchObject({ matched: 125, missed: 3 });
    expect(report.counts).toMatchObject({ missed: 0, extra: 0 });
    const first = take.hits[truth.footHits[0]];
    const more = [...take.hits, { ...first, atMs: first.atMs + 300 }].sort((a, b) => a.atMs - b.atMs);
    const added = gradeTake({ ...take, hits: more });
    expect([added.feet?.counts.extra, added.counts.extra]).toEqual([1, 0]);
  });

  it('are not measured on a rig without a surface for them', () => {
    const { take } = graded(FEET);
    const surfaces = take.rig.surfaces.filter(({ foot }) => foot !== 'K');
    const { feet } = gradeTake({ ...take, rig: { ...take.rig, surfaces } });
    expect(feet?.counts).toMatchObject({ matched: 64, missed: 0, notMeasured: 64 });
    expect(feet?.K?.scatter.band).toBe('too few strokes');
  });

  it('under a ghost note are no crosstalk of it', () => {
    const ghosts: Phrase = { ...typed('(r)lrl (r)lrl'), feet: 'K---' };
    const { report } = graded(ghosts, { timingSdMs: 1 });
    expect(report.counts).toMatchObject({ crosstalk: 0, missed: 0 });
    expect(report.feet?.counts.matched).toBe(32);
  });

  it('are not shown among the hands while playing', () => {
    const { take, grid } = graded(FEET);
    const shown = followed(take, FEET, grid);
    expect([shown.extras.length, shown.strokes]).toEqual([0, grid.slots.length]);
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
    expect(report.bars.filter((one) => one.clean).length).toBe(report.bars.length);
    const unmarked = gradeTake({ ...take, phrase: { ...PARADIDDLES, cycles: 8 } });
    expect(unmarked.measures.softSpread?.value).toBeGreaterThan(
      1.5 * (report.measures.softSpread?.value ?? NaN),
    );
  });
});

describe('voicings', () => {
  const toms: Phrase = { ...voiced(PARADIDDLES, 'accents to toms'), cycles: 8 };

  it('two surfaces: hands are known from the voicing, and wrong hands are counted', () => {
    const two: Phrase = { ...voiced(PARADIDDLES, 'two surfaces'), cycles: 8 };
    const { report, take } = graded(two);
    expect([report.hands, report.counts.wrongHand, report.counts.missed]).toEqual(['known', 0, 0]);
    const notes = take.rig.surfaces.map((surface) => surface.notes[0]);
    const crossed = take.hits.map((hit, index) =>
      index === 20 ? { ...hit, note: notes[0] + notes[1] - hit.note } : hit,
    );
    expect(gradeTake({ ...take, hits: crossed }).counts).toMatchObject({ wrongHand: 1, missed: 0, extra: 0 });
  });

  it('two surfaces: right and left are on different drums, so no balance; each drum has its contrast', () => {
    const two: Phrase = { ...voiced(PARADIDDLES, 'two surfaces'), cycles: 8 };
    const { measures } = graded(two, { faults: [{ kind: 'balance', hand: 'R', db: 3 }] }).report;
    expect([measures.balanceSoft?.band, measures.balanceAccent?.band]).toEqual([
      'not measured',
      'not measured',
    ]);
    expect(measures.contrast?.band).toBe('holds');
    expect(['floor tom', 'snare']).toContain(measures.contrast?.surface);
    expect(measures.lag?.band).toBe('holds');
  });

  it('accents to toms: accents and taps never share a drum, so no contrast; leaks of the taps are still told', () => {
    const { report } = graded(toms, { faults: [{ kind: 'leak-before', hand: 'L', db: 6 }] });
    expect(report.hands).toBe('mixed');
    expect([report.measures.contrast?.band, report.measures.clarity?.band]).toEqual([
      'not measured',
      'not measured',
    ]);
    expect(report.measures.balanceSoft?.band).toBe('holds');
    expect(report.measures.balanceAccent?.band).toBe('not measured');
    expect(Math.abs((report.measures.leakBefore?.value ?? NaN) - 6)).toBeLessThan(1);
    expect(report.bars.every((bar) => !bar.broke.includes('contrast'))).toBe(true);
  });

  it('on drums trimmed against each other all levels compare again', () => {
    const { take } = graded(toms);
    const surfaces = take.rig.surfaces.map((surface) => ({ ...surface, trimmed: true }));
    const { measures } = gradeTake({ ...take, rig: { ...take.rig, surfaces } });
    expect([measures.contrast?.band, measures.balanceAccent?.band]).toEqual(['holds', 'holds']);
    expect(measures.contrast?.surface).toBeUndefined();
  });

  it.each(bundledVoicings.map(({ name }) => name))('%s: every stroke finds its slot', (name) => {
    const { report } = graded({ ...voiced(PARADIDDLES, name), cycles: 4 });
    expect(report.fits).toBe(true);
    expect(report.counts).toMatchObject({ missed: 0, extra: 0, wrongHand: 0, crosstalk: 0, unmapped: 0 });
    expect(report.counts.matched).toBe(report.counts.slots);
    expect(report.feet?.counts.missed ?? 0).toBe(0);
  });

  it('have flams whose gap is told and whose softness is not, where grace and stroke are on two drums', () => {
    const flams: Phrase = { ...voiced(phraseNamed('flam accent'), 'accents to toms'), cycles: 16 };
    const { measures } = graded(flams).report;
    expect(measures.flamGap?.band).toBe('holds');
    expect(measures.graceSoftness?.band).toBe('not measured');
  });
});

describe('live = batch, given a whole take of each kind', () => {
  it.each([
    ['flam paradiddles', phraseNamed('flam paradiddle'), 1],
    ['drags', phraseNamed('drag'), 1],
    ['unisons on one pad', typed('[RL]lrl [Rl]lrl'), 1],
    ['unisons on two pads', typed('[RL]lrl [Rl]lrl'), 2],
    ['a groove with feet', { ...voiced(PARADIDDLES, 'groove with bass drum under accents'), cycles: 8 }, 1],
    ['swung paradiddles', { ...PARADIDDLES, swing: 0.6 }, 1],
  ] as const)('%s', (_, phrase, surfaces) => {
    const { take, grid, report } = graded(phrase, { surfaces, missed: 0.02, added: 0.01, cycles: 8 });
    const { passes } = followed(take, phrase, grid);
    let differ = 0;
    report.slots.forEach((slot, index) => {
      const live = passes[index % grid.slotsPerCycle].find((pass) => pass.cycle === grid.slots[index].cycle);
      const status = live?.status ?? 'notMeasured';
      if (status !== slot.status || (live?.levelDb ?? null) !== slot.level) differ += 1;
    });
    // Grading design: they agree on at least 99 % of the slots of a take.
    expect(differ).toBeLessThanOrEqual(report.slots.length / 100);
  });
});

describe('what a running take shows of', () => {
  it('flams: each pass has its grace, about 30 ms ahead and softer', () => {
    const phrase = { ...phraseNamed('flam accent'), cycles: 3 };
    const { take, grid } = graded(phrase);
    const [first] = followed(take, phrase, grid).passes;
    expect(first.map(({ graces }) => graces?.length)).toEqual([1, 1, 1]);
    for (const { levelDb, graces = [] } of first) {
      expect(graces[0].aheadMs).toBeGreaterThan(15);
      expect(graces[0].aheadMs).toBeLessThan(45);
      expect(graces[0].levelDb).toBeLessThan((levelDb ?? 0) - 8);
    }
  });

  it('a unison on one pad: one stroke, told once, of nobody’s hand', () => {
    const phrase = { ...typed('[RL]lrl [Rl]lrl'), cycles: 2 };
    const { take, grid } = graded(phrase, { surfaces: 1 });
    const [first, second] = followed(take, phrase, grid).passes;
    expect(first.map(({ status, levelDb }) => [status, levelDb])).toEqual([
      ['notMeasured', null],
      ['notMeasured', null],
    ]);
    expect(first.every(({ struckDb }) => (struckDb ?? -99) > -12)).toBe(true);
    expect(second).toEqual([]);
  });
});

describe('strokes on another drum than the voicing says', () => {
  const phrase = { ...voiced(PARADIDDLES, 'accents to toms'), cycles: 8 };
  const { take, report: clean } = graded(phrase);

  it('are none in a clean take, and not counted at all without a voicing', () => {
    expect(clean.counts.wrongSurface).toBe(0);
    expect(graded(PARADIDDLES).report.counts.wrongSurface).toBeUndefined();
  });

  // Every fourth accent of the right hand stays on the snare (General MIDI 38) in place of the floor tom (high, 43).
  it('are counted, said and break their bar, and their levels stay out', () => {
    let accents = 0;
    const hits = take.hits.map((hit) =>
      hit.note === 43 && (accents += 1) % 4 === 0 ? { ...hit, note: 38 } : hit,
    );
    const report = gradeTake({ ...take, hits });
    const moved = Math.floor(accents / 4);
    expect(moved).toBe(16);
    expect(report.counts).toMatchObject({ wrongSurface: moved, wrongHand: 0, missed: 0, extra: 0 });
    expect(report.slots.filter((slot) => slot.wrongSurface).length).toBe(moved);
    expect(report.bars.filter(({ broke }) => broke.includes('wrongDrum')).length).toBeGreaterThan(8);
    expect(report.measures.softness?.value).toBe(clean.measures.softness?.value);
    expect(countWords(report)).toContain(`${moved} on another drum`);
  });
});
