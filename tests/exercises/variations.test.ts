import { describe, expect, it } from 'vitest';
import { bundledPhrases, phraseFromText, phraseNamed } from '../../src/exercises/phrase';
import { handsText, parseSticking, stickingText } from '../../src/exercises/sticking';
import { accentsOff, accentWalk, mirror, patternLength, rotations } from '../../src/exercises/variations';

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
