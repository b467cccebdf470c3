import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { phraseFromText, phraseNamed } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';
import { voiced } from '../../src/exercises/voicings';
import { measures } from '../../src/grading/measures';
import { figuresOf, type NamedFigure } from '../../src/grading/figures/named-figures';
import { distributionOf, median } from '../../src/grading/numbers/statistics';
import type { Measures, Report } from '../../src/grading/types';
import {
  numberAsked,
  strokesBehind,
  type NumberAsked,
  type StrokeBehind,
} from '../../src/insight/strokes-behind';
import { modelTake } from '../../src/model/model-player';
import { readTake } from '../../src/sessions/take';
import { gradeTake } from '../../src/take/grade-take';

const WALK = phraseNamed('Single paradiddle, accent walk');

/** Bars of which one is played p, one f: an accent at p is as soft as a tap at f. */
const marked: Phrase = {
  ...WALK,
  bars: WALK.bars.map((bar, index) => ({ ...bar, dyn: index % 2 === 0 ? 'p' : 'f' })),
};

const graded = (phrase: Phrase, cycles = 8, more: object = {}) =>
  gradeTake(modelTake({ phrase, bpm: 90, seed: 3, cycles, ...more }).take);

const take: NumberAsked['of'] = { kind: 'take' };
const behind = (report: Report, measure: NumberAsked['measure']): readonly StrokeBehind[] => {
  const [named] = figuresOf(report.measures, measure);
  return strokesBehind(report, numberAsked(named, take));
};

describe('the strokes behind a number are those it was made from', () => {
  it('with the bar’s dynamics taken off: their median is the softness said', () => {
    const report = graded(marked);
    const { softness } = report.measures;
    const levels = behind(report, 'softness').map(({ levelDb }) => levelDb ?? NaN);
    expect(softness?.n).toEqual([levels.length]);
    expect(median(distributionOf(levels))).toBeCloseTo(softness?.value ?? NaN, 9);
  });

  it('on the surface that the figure is of, in a phrase voiced to several', () => {
    const toms = voiced(WALK, 'accents to toms');
    const report = graded({ ...toms, bars: toms.bars });
    const { balanceAccent, softSpread } = report.measures;
    expect(softSpread?.n).toEqual([behind(report, 'softSpread').length]);
    // the accents of each hand go to a tom of their own: no surface has both, so there is no balance to show
    expect(balanceAccent?.band).toBe('not measured');
    const { accentSpread } = report.measures;
    expect(accentSpread?.surface).toBeDefined();
    expect(accentSpread?.n).toEqual([behind(report, 'accentSpread').length]);
    expect(behind(report, 'accentSpread').length).toBeLessThan(report.slots.length / 4);
  });

  it('in a take that was broken off, where neighbours are those of the phrase and not of the take’s ends', () => {
    const made = modelTake({ phrase: WALK, bpm: 90, seed: 3, cycles: 3 });
    const bar = (4 * 60_000) / 90;
    const downbeat = made.take.downbeatMs ?? NaN;
    // stopped with the first bar of the third cycle
    const hits = made.take.hits.filter(({ atMs }) => atMs < downbeat + 9 * bar - 40);
    const report = gradeTake({ ...made.take, hits });
    expect(report.bars).toHaveLength(9);
    for (const key of ['leakBefore', 'leakAfter', 'spill', 'fade'] as const) {
      const figure = report.measures[key];
      const about = behind(report, key).filter(({ as }) => !/^(other|first)/.test(as));
      expect([key, about.length]).toEqual([key, figure?.n[0]]);
    }
  });

  it('of flams the strokes that a grace led to, and none of the others', () => {
    const report = graded(phraseNamed('flam accent'), 24);
    for (const key of ['flamGap', 'graceEvenness', 'graceSoftness'] as const) {
      const strokes = behind(report, key);
      expect(report.measures[key]?.n).toEqual([strokes.length]);
      const gaps = strokes.flatMap(({ graceGapsMs }) => graceGapsMs ?? []);
      expect(median(distributionOf(gaps))).toBeCloseTo(report.measures.flamGap?.value ?? NaN, 9);
    }
  });
});

const TAKES: Readonly<Record<string, () => Report>> = {
  ...Object.fromEntries(
    readdirSync('recorded-sessions')
      .filter((file) => file.endsWith('.take.json'))
      .map((file) => [file, () => gradeTake(readTake(readFileSync(`recorded-sessions/${file}`, 'utf8')))]),
  ),
  'taps and ghosts': () =>
    graded(
      phraseFromText('R(l)rl L(r)(l)r Rlr(l) Lr(l)r', { beatsPerBar: 4, partialsPerBeat: 4, cycles: 12 }),
      12,
    ),
  'with misses and extras': () => graded(WALK, 8, { missed: 0.03, added: 0.02 }),
  'drags before accents and taps': () =>
    graded(
      phraseFromText('{ll}Rlrl {rr}lrlr Rlr{rr}L rlrl', { beatsPerBar: 4, partialsPerBeat: 4, cycles: 8 }),
      8,
    ),
  marked: () => graded(marked),
};

describe.each(Object.entries(TAKES))('in %s', (_, make) => {
  const report = make();
  const scopes: readonly (readonly [NumberAsked['of'], Measures])[] = [
    [take, report.measures],
    ...report.variations.map(({ name, measures: of }) => [{ kind: 'variation', name }, of] as const),
    [{ kind: 'hand', hand: 'R' }, report.perHand.R.measures],
    [{ kind: 'hand', hand: 'L' }, report.perHand.L.measures],
  ];

  it('every figure has as many strokes behind it as it says (law)', () => {
    for (const [of, figures] of scopes) {
      for (const { key } of measures) {
        for (const named of figuresOf(figures, key)) expectAsMany(report, named, of);
      }
    }
  });

  it('every slot that counts for nothing was not played, and no slot counts for what the take has not', () => {
    for (const { counts, status } of report.slots) {
      if (status === 'matched') expect(counts).toBeDefined();
    }
    const names = new Set(report.counting.flatMap((one) => Object.keys(one)));
    const there = new Set(scopes.flatMap(([, of]) => Object.keys(of)));
    for (const name of names) expect(there).toContain(name.split('.')[0]);
  });
});

function expectAsMany(report: Report, named: NamedFigure, of: NumberAsked['of']): void {
  const { key, part, figure } = named;
  // `complete` shows what went wrong; these are of the one or two places, of all that are shown, that stand farthest out
  if (key === 'complete' || figure.value === null) return;
  if (key === 'softRange' || key === 'graceEvenness' || key === 'graceHands') return;
  const strokes = strokesBehind(report, numberAsked(named, of));
  const weight = ({ graceGapsMs }: StrokeBehind): number =>
    ['flamGap', 'dragGap', 'graceSoftness'].includes(key) ? (graceGapsMs?.length ?? 0) : 1;
  const sum = (all: readonly StrokeBehind[]): number => all.reduce((n, one) => n + weight(one), 0);
  const about = strokes[0] === undefined ? [] : groupsOf(strokes);
  const sums =
    figure.n.length === 1
      ? [sum(about[0] ?? [])]
      : about.length === 2
        ? about.map(sum)
        : (['R', 'L'] as const).map((hand) => sum(strokes.filter((one) => one.hand === hand)));
  expect([key, part, of, sums]).toEqual([key, part, of, figure.n]);
}

/** Strokes by what they count as, those that the figure is about first. */
function groupsOf(strokes: readonly StrokeBehind[]): readonly (readonly StrokeBehind[])[] {
  const heldAgainst = ['other soft stroke', 'first of a double', 'soft stroke', 'ghost note', 'on the beat'];
  const names = [...new Set(strokes.map(({ as }) => as))].sort(
    (a, b) => heldAgainst.indexOf(a) - heldAgainst.indexOf(b),
  );
  return names.map((name) => strokes.filter(({ as }) => as === name));
}
