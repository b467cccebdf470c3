import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../../../src/exercises/phrase';
import type { Fault } from '../../../../src/model/faults';
import { modelTake } from '../../../../src/model/model-player';
import { stripsOf } from '../../../../src/sessions/paper/strip/strip';
import { stripHeight, stripSvg } from '../../../../src/sessions/paper/strip/strip-svg';
import { stripLabel } from '../../../../src/sessions/paper/strip/strip-words';
import { xmlOf } from '../../../../src/sessions/xml';
import { gradeTake } from '../../../../src/take/grade-take';

const phrase = phraseNamed('Single paradiddle, accent walk');
const { take } = modelTake({
  phrase,
  bpm: 84,
  seed: 3,
  cycles: 8,
  faults: [{ kind: 'leak-before', hand: 'L', db: 8, variation: 'accent on 4' }],
});
const report = gradeTake(take);
const strips = stripsOf(report, take.phrase, '+7.7 dB');

describe('strips of a take', () => {
  it('there is one a variation, in the phrase’s order, each slot of the bar on it', () => {
    expect(strips.map(({ variation }) => variation)).toEqual([
      'accent on 1',
      'accent on 2',
      'accent on 3',
      'accent on 4',
    ]);
    expect(strips.every(({ slots }) => slots.length === 16)).toBe(true);
  });

  it('every place of the named fault is marked, and only in its variation: the left tap before its accent, twice a bar', () => {
    const named = strips.map(({ slots }) => slots.filter((slot) => slot.named).map(({ slot }) => slot.slot));
    expect(named).toEqual([[], [], [], [6, 14]]);
  });

  it('what is named as a leak lies outside its band, and nothing else does', () => {
    const outside = strips.flatMap(({ slots }) => slots.filter(({ outsideDb }) => outsideDb !== 0));
    expect(outside.map(({ slot }) => [slot.variation, slot.slot])).toEqual([
      ['accent on 4', 6],
      ['accent on 4', 14],
    ]);
  });

  it('medians and spreads are those of the take’s own strokes', () => {
    const own = report.slots
      .filter(({ bar, slot }) => report.bars[bar].variation === 'accent on 1' && slot === 0)
      .map(({ level }) => level ?? NaN)
      .sort((a, b) => a - b);
    expect(own).toHaveLength(8);
    expect(strips[0].slots[0].levelDb).toBeCloseTo((own[3] + own[4]) / 2, 9);
  });

  it('is said for the ear: verdict, and what lies outside with its place and how far', () => {
    expect(stripLabel(strips[0])).toBe('accent on 1: holds. Every stroke in its band.');
    expect(stripLabel(strips[3])).toMatch(
      /^accent on 4: not yet\. Outside their band: left at 2 &, \d\.\d dB over; left at 4 &, \d\.\d dB over\.$/,
    );
  });
});

describe('the drawing of a strip', () => {
  const look = { width: 900, plot: 74, letters: true, words: true };
  const drawn = xmlOf(stripSvg(strips[3], look, 'x'));

  it('right strokes are filled, left strokes open, sixteen of them', () => {
    expect(drawn.match(/rx="4\.5"/g)).toHaveLength(16);
    expect(drawn.match(/rx="4\.5" fill="var\(--paper, #fff\)"/g)).toHaveLength(8);
  });

  it('two carets, one number, and the verdict’s word', () => {
    expect(drawn.match(/l6 9 h-12 z/g)).toHaveLength(2);
    expect(drawn.match(/\+7\.7 dB/g)).toHaveLength(1);
    expect(drawn).toContain('>not yet</text>');
  });

  it('red is only on what is outside its band, on a margin that is not yet there and its verdict', () => {
    const held = xmlOf(stripSvg(strips[0], look, 'x'));
    expect(held).not.toContain('--out');
  });

  it('without words and letters it is as tall as its plot and the caret under it', () => {
    expect(stripHeight({ width: 300, plot: 40, letters: false, words: false })).toBe(58);
  });

  it('nothing is drawn outside of it, at any width', () => {
    for (const width of [300, 390, 620, 820, 1280]) {
      const svg = xmlOf(stripSvg(strips[3], { ...look, width }, 'x'));
      const xs = [...svg.matchAll(/ (?:x|x1|x2|cx)="(-?[\d.]+)"/g)].map(([, x]) => Number(x));
      expect(Math.min(...xs)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...xs)).toBeLessThanOrEqual(width);
    }
  });
});

describe('the mark of a fault', () => {
  const graded = (faults: readonly Fault[]) =>
    gradeTake(modelTake({ phrase, bpm: 84, seed: 3, cycles: 8, timingSdMs: 4, surfaces: 2, faults }).take);

  it('stands in no bar by itself where every variation has it', () => {
    const late = graded([{ kind: 'late', hand: 'L', ms: 18 }]);
    expect(late.weakest?.scope).toBe('hand');
    expect(stripsOf(late, phrase, '18 ms').every(({ slots }) => slots.every(({ named }) => !named))).toBe(
      true,
    );
  });

  it('at a bar’s first stroke has its number beside the names of the heights, not on them', () => {
    const flat = graded([{ kind: 'accents', db: -9, variation: 'accent on 1' }]);
    const [drawn] = stripsOf(flat, phrase, '+12.5 dB');
    const slots = drawn.slots.map((slot, index) => ({ ...slot, named: index === 0 }));
    const first = { ...drawn, slots, figure: '+12.5 dB' };
    const svg = xmlOf(stripSvg(first, { width: 390, plot: 58, letters: false, words: true }, ''));
    const [, x] = /<text x="([\d.]+)"[^>]*text-anchor="middle"[^>]*>\+12\.5 dB</.exec(svg)!;
    const names = 44;
    // about 62 px wide at 15 px bold: measured in Chromium
    expect(Number(x) - 62 / 2).toBeGreaterThanOrEqual(names);
  });
});
