import { describe, expect, it } from 'vitest';
import { dynamicsOf } from '../../src/exercises/dynamics';
import type { Phrase } from '../../src/exercises/types';

const dynOf = (...dyns: readonly (string | undefined)[]): Phrase => ({
  title: 'swells',
  beatsPerBar: 4,
  partialsPerBeat: 4,
  cycles: 1,
  bars: dyns.map((dyn) => ({
    variation: 'bar',
    sticking: 'RlrrLrllRlrrLrll',
    ...(dyn === undefined ? {} : { dyn }),
  })),
});

// Velocities 32, 64 and 96 for p, mf and f: the table of dynamics of the Standard MIDI File specification's example;
// under 40·log10(v/127) they lie 19.085 and 7.044 dB under f.
describe('the dyn line', () => {
  it('puts p, mp, mf and f 19.1, 13.1, 7.0 and 0 dB under f', () => {
    const shift = dynamicsOf(dynOf('p mp mf f'), 0);
    expect([0, 1, 2, 3].map((beat) => Number(shift(beat).toFixed(3)))).toEqual([-19.085, -13.064, -7.044, 0]);
  });

  it('holds a level to the next, and the last to the end of the bar', () => {
    const shift = dynamicsOf(dynOf('f p'), 0);
    expect([0, 0.75, 1, 3.75].map((beat) => Number(shift(beat).toFixed(1)))).toEqual([0, 0, -19.1, -19.1]);
  });

  it('goes straight in dB from the hairpin’s own beat to the next level', () => {
    const shift = dynamicsOf(dynOf('p < < f'), 0);
    expect([0, 0.75, 1, 1.5, 2, 2.5, 3].map((beat) => Number(shift(beat).toFixed(2)))).toEqual([
      -19.08, -19.08, -19.08, -14.31, -9.54, -4.77, 0,
    ]);
  });

  it('leads over the bar line to the first level of the next bar, round the cycle', () => {
    const phrase = dynOf('p <', 'f >');
    expect(Number(dynamicsOf(phrase, 0)(2.5).toFixed(2))).toBe(-9.54);
    expect(Number(dynamicsOf(phrase, 1)(2.5).toFixed(2))).toBe(-9.54);
    expect(Number(dynamicsOf(dynOf('p < f >'), 0)(3.5).toFixed(2))).toBe(-9.54);
    expect(Number(dynamicsOf(dynOf('p <', undefined), 0)(2.5).toFixed(2))).toBe(-9.54);
    expect(dynamicsOf(dynOf(undefined, 'f'), 0)(2)).toBe(0);
  });

  it.each([
    ['p q', 'bars[0].dyn: line 1, column 3 must be p, mp, mf, f, < or >, got "q"'],
    ['< f', 'bars[0].dyn: line 1, column 1 must begin with a level: p, mp, mf or f, got "<"'],
    ['', 'bars[0].dyn: line 1, column 1 must begin with a level: p, mp, mf or f'],
    ['p < < < f', 'bars[0].dyn: line 1, column 9 must have at most one token a beat, 4 in this bar'],
    ['f < p', 'bars[0].dyn: line 1, column 3 < must lead to a louder level'],
    ['p > f', 'bars[0].dyn: line 1, column 3 > must lead to a softer level'],
    ['p < > f', 'bars[0].dyn: line 1, column 3 < must lead to a level: p, mp, mf or f'],
  ])('%j is told where it is wrong', (dyn, message) => {
    expect(() => dynamicsOf(dynOf(dyn), 0)).toThrow(message);
  });
});
