import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bundledPhrases, phraseFromText, phraseNamed } from '../../src/exercises/phrase';
import { handsText, parseSticking, stickingText } from '../../src/exercises/sticking';
import {
  accentsOff,
  accentWalk,
  displacement,
  displacements,
  mirror,
  oneHand,
  patternLength,
  rotations,
  runningBars,
  struckPartials,
} from '../../src/exercises/variations';

const PARADIDDLE = parseSticking('Rlrr Lrll')[0];
const hands = (bar: typeof PARADIDDLE): string => handsText(bar, [4]);
const text = (bar: typeof PARADIDDLE): string => stickingText(bar, [4]);

describe('variations of the single paradiddle', () => {
  it('walks the accent over the four partials', () => {
    expect(accentWalk(PARADIDDLE, 4).map(text)).toEqual(['Rlrr Lrll', 'rLrr lRll', 'rlRr lrLl', 'rlrR lrlL']);
  });

  it('has four rotations that keep the right lead (names and order: vocabulary, common practice)', () => {
    expect(rotations(PARADIDDLE).map(hands)).toEqual(['RLRR LRLL', 'RLLR LRRL', 'RRLR LLRL', 'RLRL LRLR']);
  });

  it('keeps the accent on the beat in every rotation', () => {
    expect(rotations(PARADIDDLE).map(text)).toEqual(['Rlrr Lrll', 'Rllr Lrrl', 'Rrlr Llrl', 'Rlrl Lrlr']);
  });

  it('never makes three of one hand in a row when the rotations are strung in that order, round and round', () => {
    const cycle = rotations(PARADIDDLE)
      .flatMap((bar) => [...bar, ...bar])
      .map((partial) => partial.notes[0].hand)
      .join('');
    expect(cycle + cycle).not.toMatch(/RRR|LLL/);
  });

  it('has 8 distinct turnings of RLRRLRLL, and its mirror is the turning by 4 (calc, check-values section 4)', () => {
    const order = 'RLRRLRLL';
    const turned = [...order].map((_, steps) => order.slice(steps) + order.slice(0, steps));
    expect(new Set(turned).size).toBe(8);
    expect(hands(mirror(PARADIDDLE)).replace(' ', '')).toBe(turned[4]);
  });

  it('gives each hand four strokes of eight in every rotation (calc)', () => {
    for (const bar of rotations(PARADIDDLE)) {
      expect(bar.filter((partial) => partial.notes[0].hand === 'R')).toHaveLength(4);
    }
  });

  it('has RRLR LLRL among them, the sticking of the single flammed mill (check-values section 4, row 25)', () => {
    expect(rotations(PARADIDDLE).map(hands)).toContain('RRLR LLRL');
  });

  it('mirrors to the left lead, and twice is where it was', () => {
    expect(text(mirror(PARADIDDLE))).toBe('Lrll Rlrr');
    expect(mirror(mirror(PARADIDDLE))).toEqual(PARADIDDLE);
  });

  it('takes the accents off', () => {
    expect(text(accentsOff(PARADIDDLE))).toBe('rlrr lrll');
  });

  it('finds the pattern in a bar', () => {
    expect(patternLength(parseSticking('Rlrr Lrll Rlrr Lrll')[0])).toBe(8);
    expect(patternLength(parseSticking('rrrr rrrr')[0])).toBe(1);
    expect(patternLength(parseSticking('Rlrr Lrll Rlrr LrlL')[0])).toBe(16);
  });
});

describe('variations of anything', () => {
  const of = (sticking: string) => parseSticking(sticking)[0];

  it('displaces the whole figure, accent and all, a partial later', () => {
    expect(text(displacement(PARADIDDLE, 1))).toBe('lRlr rLrl');
    expect(text(displacement(PARADIDDLE, -1))).toBe('lrrL rllR');
    expect(displacements(PARADIDDLE).map(text)).toEqual([
      'Rlrr Lrll',
      'lRlr rLrl',
      'llRl rrLr',
      'rllR lrrL',
      'Lrll Rlrr',
      'rLrl lRlr',
      'rrLr llRl',
      'lrrL rllR',
    ]);
  });

  it('leaves one hand alone: the other’s strokes become rests, its grace notes go', () => {
    expect(text(oneHand(PARADIDDLE, 'R'))).toBe('R-rr -r--');
    expect(text(oneHand(of('{l}Rl[RL]r'), 'R'))).toBe('R-Rr');
    expect(text(oneHand(of('{l}Rl[RL]r'), 'L'))).toBe('-lL-');
  });

  it('keeps grace notes with their strokes in rotation and mirror, and tells rotations apart by them', () => {
    const accents = of('{l}Rlr {r}Lrl');
    expect(stickingText(mirror(accents), [3])).toBe('{r}Lrl {l}Rlr');
    expect(rotations(accents).map((bar) => stickingText(bar, [3]))).toEqual([
      '{l}Rlr {r}Lrl',
      'Rl{l}r Lr{r}l',
      'R{r}lr L{l}rl',
    ]);
  });

  it('keeps unisons, accents of both hands walking together', () => {
    expect(accentWalk(of('[RL]lrl'), 4).map(text)).toEqual(['[RL]lrl', '[rl]Lrl', '[rl]lRl', '[rl]lrL']);
  });

  it('walks accents over triplets: three variations of the flam accent', () => {
    expect(accentWalk(of('{l}Rlr {r}Lrl'), 3).map((bar) => stickingText(bar, [3]))).toEqual([
      '{l}Rlr {r}Lrl',
      '{l}rLr {r}lRl',
      '{l}rlR {r}lrL',
    ]);
  });

  it('finds where an accent can go: not on a partial that rests in every beat', () => {
    expect(struckPartials(of('rrllR--- llrrL---'), 8)).toEqual([0, 1, 2, 3, 4]);
  });

  it('runs a pattern of 8 on over bars of four quintuplets until it comes round: two bars', () => {
    expect(runningBars(PARADIDDLE, 20).map((bar) => stickingText(bar, [5]))).toEqual([
      'RlrrL rllRl rrLrl lRlrr',
      'LrllR lrrLr llRlr rLrll',
    ]);
  });

  it('runs it over sixteenths and triplets in one bar or two (calc: least common multiple)', () => {
    expect(runningBars(PARADIDDLE, 16)).toHaveLength(1);
    expect(runningBars(PARADIDDLE, 12)).toHaveLength(2);
    expect(runningBars(PARADIDDLE, 28)).toHaveLength(2);
  });

  it('displaces there and back, and mirrors twice to where it was, for any pattern', () => {
    const token = fc.constantFrom('R', 'L', 'r', 'l', '(r)', '-', '{l}R', '{rr}l', '[Rl]');
    fc.assert(
      fc.property(
        fc.array(token, { minLength: 1, maxLength: 16 }),
        fc.integer({ min: -40, max: 40 }),
        (tokens, steps) => {
          const pattern = of(tokens.join(''));
          expect(displacement(displacement(pattern, steps), -steps)).toEqual(pattern);
          expect(mirror(mirror(pattern))).toEqual(pattern);
          expect(runningBars(pattern, 20).flat()).toHaveLength(runningBars(pattern, 20).length * 20);
        },
      ),
    );
  });
});

describe('phrases', () => {
  it('have names of their own', () => {
    const names = bundledPhrases.map((bundled) => bundled.name);
    expect(new Set(names).size).toBe(names.length);
    expect(phraseNamed('single PARADIDDLE, rotations').bars).toHaveLength(4);
    expect(() => phraseNamed('no such phrase')).toThrow(
      `phrase must be one of the bundled phrases, got "no such phrase"`,
    );
  });

  it('come from typed sticking, a variation a bar, the same bar twice one variation', () => {
    const typed = phraseFromText('Rlrr Lrll | rlrr lrll | Rlrr Lrll', {
      beatsPerBar: 2,
      partialsPerBeat: 4,
      cycles: 4,
    });
    expect(typed.bars.map((bar) => bar.variation)).toEqual(['Rlrr Lrll', 'rlrr lrll', 'Rlrr Lrll']);
  });

  it('refuse a short bar by its number', () => {
    const four = { beatsPerBar: 4, partialsPerBeat: 4, cycles: 4 };
    expect(() => phraseFromText('Rlrr Lrll Rlrr Lrll | Rlrr Lrl', four)).toThrow(
      'bar 2 must fill its bar: 7 partials in a bar of 16',
    );
  });
});
