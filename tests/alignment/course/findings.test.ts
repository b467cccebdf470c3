import { describe, expect, it } from 'vitest';
import { autocorrelation, leaning } from '../../../src/alignment/course/autocorrelation';
import { blocksOf, type Block } from '../../../src/alignment/course/blocks';
import { doublesOf } from '../../../src/alignment/course/doubles';
import { latticeOf, placesOf, timeOfPlace } from '../../../src/alignment/course/lattice';
import { lineOf, lineOrStep } from '../../../src/alignment/course/line-or-step';
import { stretchesOf } from '../../../src/alignment/course/pauses';
import { rateOf } from '../../../src/alignment/course/rate';
import { loudnessesOf } from '../../../src/alignment/course/velocities';
import { gridOf } from '../../../src/exercises/grid';
import { phraseNamed } from '../../../src/exercises/phrase';
import { settingsOf } from '../../../src/settings';
import { reference } from '../../reference/read';

const settings = settingsOf('working');
const phrase = phraseNamed('Single paradiddle, accent walk');
/** A sixteenth lasts 200 ms, a bar 3200 ms. */
const grid = gridOf(phrase, { bpm: 75 }, 0, 16);
const lattice = latticeOf(grid);
const blocksAt = (phases: readonly number[]): Block[] =>
  phases.map((phaseMs, half) => ({
    atMs: 1600 * half,
    phaseMs,
    resultant: 0.95,
    half,
    inCycle: half % 8,
    from: 8 * half,
  }));

describe('autocorrelation, and a line’s standard error (statsmodels: acf, OLS; tests/reference/autocorrelation.py)', () => {
  const cases = reference('autocorrelation') as readonly {
    readonly ms: number[];
    readonly phases: number[];
    readonly slope: number;
    readonly error: number;
    readonly squares: number;
    readonly residuals: number[];
    readonly autocorrelation: number;
  }[];

  it.each(cases)('$autocorrelation', (one) => {
    const residuals = Float64Array.from(one.residuals);
    expect(autocorrelation(residuals)).toBeCloseTo(one.autocorrelation, 9);
    const blocks = blocksAt(one.phases).map((block, i) => ({ ...block, atMs: one.ms[i] }));
    const line = lineOf(blocks, Float64Array.from(one.phases));
    expect(line.slope).toBeCloseTo(one.slope, 12);
    expect(line.squares).toBeCloseTo(one.squares, 6);
    expect(line.error / leaning(residuals)).toBeCloseTo(one.error, 12);
  });

  it('errors that lean on each other by 0.5 in the long run make a standard error √3 as large', () => {
    const many = Float64Array.from({ length: 20_000 });
    let state = 7;
    for (let i = 0; i < many.length; i += 1) {
      state = (state * 1103515245 + 12345) % 2147483648;
      many[i] = (i === 0 ? 0 : 0.5 * many[i - 1]) + state / 2147483648 - 0.5;
    }
    expect(leaning(many)).toBeGreaterThan(1.65);
    expect(leaning(many)).toBeLessThan(1.82);
  });
});

describe('the lattice: every partial, rests too', () => {
  it('has a place a partial, and goes on evenly beyond both ends', () => {
    expect(lattice.at.length).toBe(256);
    expect(lattice.period).toBe(1);
    expect(timeOfPlace(lattice, -2)).toBe(-400);
    expect(timeOfPlace(lattice, 258)).toBeCloseTo(51_600, 6);
    expect([...placesOf(lattice, [-100, 0, 300, 51_300])]).toEqual([-0.5, 0, 1.5, 256.5]);
  });

  it('swings in pairs', () => {
    const swung = latticeOf(gridOf({ ...phrase, swing: 0.6 }, { bpm: 75 }, 0, 4));
    expect(swung.period).toBe(2);
    expect(timeOfPlace(swung, 65)).toBeCloseTo(64 * 200 + 240, 6);
  });
});

describe('line or step (thresholds of the grading design)', () => {
  const sway = [1, -1, 2, -2, 1, -1, 2, -2, 1, -1, 2, -2, 1, -1, 2, -2];
  it('a line that moves by 0.15 of the gap (30 ms) is told, one that moves by 24 ms isn’t', () => {
    const rising = (byMs: number) => blocksAt(sway.map((ms, i) => ms / 4 + (byMs * i) / 15));
    expect(lineOrStep(rising(32), 200, settings).kind).toBe('line');
    expect(lineOrStep(rising(24), 200, settings)).toEqual({ kind: 'steady' });
  });
  it('a step of 60 ms is told where it is, one of 20 ms isn’t', () => {
    const stepping = (byMs: number) => blocksAt(sway.map((ms, i) => ms + (i < 8 ? 0 : byMs)));
    expect(lineOrStep(stepping(-60), 200, settings)).toMatchObject({ kind: 'step', block: 8 });
    expect(lineOrStep(stepping(20), 200, settings)).toEqual({ kind: 'steady' });
  });
  it('a variation that is late by 60 ms in each cycle is neither', () => {
    const late = blocksAt(Array.from({ length: 32 }, (_, i) => sway[i % 16] + (i % 8 >= 6 ? 60 : 0)));
    expect(lineOrStep(late, 200, settings)).toEqual({ kind: 'steady' });
  });
  it('blocks whose strokes lie anywhere tell no line', () => {
    const anywhere = blocksAt(sway.map((ms, i) => ms + 5 * i)).map((block) => ({
      ...block,
      resultant: 0.49,
    }));
    expect(lineOrStep(anywhere, 200, settings)).toEqual({ kind: 'steady' });
  });
  it('a drift of more than a gap is followed on, block by block', () => {
    const at = Float64Array.from({ length: 256 }, (_, i) => i * 200 * 1.01);
    const blocks = blocksOf({ lattice, places: placesOf(lattice, at), at }, { from: 0, to: 256 });
    const last = blocks[blocks.length - 1];
    expect(last.phaseMs / last.atMs).toBeCloseTo(0.01 / 1.01, 3);
  });
});

describe('pauses', () => {
  const at = (from: number, to: number): number[] =>
    Array.from({ length: to - from }, (_, i) => (from + i) * 200);
  it('longer than half a bar and a gap (1800 ms) is one, as long isn’t', () => {
    const stop = (slots: number) => [...at(0, 40), ...at(40 + slots, 120)];
    expect(stretchesOf(lattice, stop(9), 3200, [], settings).length).toBe(2);
    expect(stretchesOf(lattice, stop(8), 3200, [], settings).length).toBe(1);
  });
  it('of a gone port any slot is enough, and it is told as the cable', () => {
    const short = [...at(0, 40), ...at(43, 120)];
    const [, second] = stretchesOf(lattice, short, 3200, [{ fromMs: 7900, toMs: 8500 }], settings);
    expect(second).toEqual({ from: 40, to: 117, cable: true });
  });
  it('a bar to listen to is none', () => {
    const [one, ...rest] = phrase.bars;
    const heard = { ...phrase, bars: [one, { ...one, role: 'listen' as const }, ...rest] };
    const listening = latticeOf(gridOf(heard, { bpm: 75 }, 0, 10));
    const played = [...at(0, 16), ...at(32, 80)];
    expect(stretchesOf(listening, played, 3200, [], settings).length).toBe(1);
  });
});

describe('another rate', () => {
  const times = (gapMs: number) => Array.from({ length: 64 }, (_, i) => i * gapMs);
  it.each([
    [100, 2],
    [400, 0.5],
    [200 / 1.5, 1.5],
    [300, 2 / 3],
    [105, 2],
    [200, undefined],
    [110, undefined],
    [160, undefined],
  ])('a stroke each %f ms where one is due each 200: %f', (gapMs, rate) => {
    expect(rateOf(times(200), times(gapMs), settings)).toBe(rate);
  });
  it('strokes left out are no other rate: what is left keeps the phrase’s own steps', () => {
    // of sixteen: as median two in a row are three slots apart
    const left = times(200).filter((_, i) => ![3, 6, 9, 10, 13].includes(i % 16));
    expect(rateOf(times(200), left, settings)).toBeUndefined();
  });
});

describe('few velocities', () => {
  const levels = (count: number, of: readonly number[]) =>
    Array.from({ length: count }, (_, i) => of[i % of.length]);
  it('one from 24 strokes and 80 % on', () => {
    expect(loudnessesOf(levels(24, [0]), settings)).toBe('one');
    expect(loudnessesOf(levels(23, [0]), settings)).toBe('many');
    expect(loudnessesOf(levels(50, [0, 0, 0, -9]), settings)).toBe('few');
  });
  it('few from 48 strokes and 95 % of four on', () => {
    expect(loudnessesOf(levels(48, [0, -4, -20, -24]), settings)).toBe('few');
    expect(loudnessesOf(levels(50, [0, -4, -20, -24, -30]), settings)).toBe('many');
  });
});

describe('came twice', () => {
  const made = (afterMs: number, db: number) =>
    Array.from({ length: 40 }, (_, i) => i).flatMap((i) => {
      const stroke = { atMs: i * 200, levelDb: -4, hand: null, echoLike: false, surface: 'pad' };
      return i % 20 === 7 ? [stroke, { ...stroke, atMs: i * 200 + afterMs, levelDb: -4 + db }] : [stroke];
    });
  const told = (afterMs: number, db = 0, isGraced = false) => {
    const strokes = made(afterMs, db);
    const nearest = strokes.map(({ atMs }) => Math.round(atMs / 200));
    return doublesOf(strokes, nearest, 200, { isGraced: () => isGraced, isEmpty: () => false }, settings);
  };
  it('within 60 ms, not over 3 dB louder, where no grace is due', () => {
    expect(told(25)).toEqual({ strokes: [8, 29], ms: 25, share: 2 / 42 });
    expect(told(59)?.strokes.length).toBe(2);
    expect(told(61)).toBeUndefined();
    expect(told(25, 3.5)).toBeUndefined();
    expect(told(25, 0, true)).toBeUndefined();
  });
});
