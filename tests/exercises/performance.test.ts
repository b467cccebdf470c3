import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dynShapes } from '../../src/exercises/dyn-shapes';
import { gridOf } from '../../src/exercises/grid';
import { asWritten, performed, performanceOf, type Performance } from '../../src/exercises/performance';
import { ostinatos } from '../../src/exercises/ostinatos';
import { bundledPhrases, phraseNamed } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';
import { bundledVoicings } from '../../src/exercises/voicings';

const walk = phraseNamed('Single paradiddle, accent walk');

describe('a phrase played with a performance', () => {
  it('as written is itself', () => {
    expect(performed(walk, asWritten)).toEqual(walk);
  });

  it('with call and response each bar is listened to and then played', () => {
    const { bars, title } = performed(walk, { ...asWritten, first: 'listen' });
    expect(bars.map(({ role, variation }) => `${role ?? 'play'} ${variation}`).slice(0, 4)).toEqual([
      'listen accent on 1',
      'play accent on 1',
      'listen accent on 2',
      'play accent on 2',
    ]);
    expect(title).toBe('Single paradiddle, accent walk, call and response');
  });

  it('to the kit has the voicing’s feet, unless others are asked for, or none', () => {
    const kit = (feet: string | null) =>
      performed(walk, { ...asWritten, voicing: 'accents to crash with bass drum', feet });
    // Under accents: on 1 of each beat in the first bar, on 2 in the second, …
    expect(kit(null).feet?.replaceAll(' ', '').slice(0, 24)).toBe('K---K---K---K----K---K--');
    expect(kit('H---').feet).toBe('H---');
    expect(kit('').feet).toBeUndefined();
    expect(kit('').voicing).toEqual({ R: 'snare', L: 'snare', accents: 'crash' });
  });

  it('is swung and shaped', () => {
    const phrase = performed(walk, { ...asWritten, swing: 0.6, dyn: 'p < < f' });
    expect([phrase.swing, phrase.bars[3].dyn]).toEqual([0.6, 'p < < f']);
  });

  it('says where feet and dynamics are wrong, at the character', () => {
    expect(() => performed(walk, { ...asWritten, feet: 'K--x' })).toThrow('line 1, column 4 must be K');
    expect(() => performed(walk, { ...asWritten, dyn: 'p loud' })).toThrow(
      /^line 1, column 3 must be p, mp, mf, f, < or >, got "loud"$/,
    );
  });

  it('is told again from its bars: the same phrase, the same performance', () => {
    const performances: fc.Arbitrary<Performance> = fc.record({
      voicing: fc.constantFrom(null, ...bundledVoicings.map(({ name }) => name)),
      feet: fc.constantFrom(null, 'K---H---', '[KH]-k-'),
      swing: fc.constantFrom(0.5, 0.6, 0.67),
      dyn: fc.constantFrom(null, 'p f', 'mf'),
      first: fc.constantFrom(null, 'listen' as const, 'say' as const),
    });
    const phrases = fc.constantFrom(...bundledPhrases.map(({ phrase }) => phrase));
    fc.assert(
      fc.property(phrases, performances, (base, performance) => {
        const phrase = performed(base, performance);
        const told = performanceOf(phrase);
        expect(told.performance).toEqual(performance);
        expect(performed(told.base, told.performance)).toEqual(phrase);
      }),
      { numRuns: 60 },
    );
  });

  it('leaves a voicing and roles of the player’s own where they are', () => {
    const [first, second] = walk.bars;
    const own: Phrase = {
      ...walk,
      voicing: { R: 'cowbell' },
      bars: [first, { ...second, role: 'listen' }, first],
    };
    expect(performanceOf(own)).toEqual({ base: own, performance: asWritten });
  });
});

describe('what can be chosen', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'every ostinato is a line that parses, under %i partials a beat',
    (partials) => {
      for (const { line } of ostinatos) {
        const feet = line(4, partials);
        if (feet === undefined) continue;
        const phrase: Phrase = {
          title: '',
          beatsPerBar: 4,
          partialsPerBeat: partials,
          cycles: 1,
          feet,
          bars: [{ variation: 'one', sticking: 'r'.repeat(4 * partials) }],
        };
        expect(gridOf(phrase, { bpm: 60 }, 0).feet.length).toBeGreaterThan(0);
      }
    },
  );

  it('hi-hat on 2 and 4 in sixteenths is - - - - H - - -', () => {
    expect(ostinatos.find(({ name }) => name === 'hi-hat on 2 and 4')?.line(4, 4)).toBe('---- H---');
  });

  it.each([1, 2, 3, 4, 7])('every shape of dynamics fits a bar of %i beats', (beats) => {
    for (const { line } of dynShapes) {
      const bars = [{ variation: 'one', sticking: 'r'.repeat(beats), dyn: line(beats) }];
      const phrase: Phrase = { title: '', beatsPerBar: beats, partialsPerBeat: 1, cycles: 1, bars };
      expect(gridOf(phrase, { bpm: 60 }, 0).slots).toHaveLength(beats);
    }
  });
});
