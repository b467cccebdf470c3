import { describe, expect, it } from 'vitest';
import { buildPhrase, leads, stages, type PhrasePlan } from '../../src/exercises/build-phrase';
import { barSticking, phraseNamed } from '../../src/exercises/phrase';
import { rudiments } from '../../src/exercises/rudiments';
import { variationRules } from '../../src/exercises/rules';
import { parseSticking } from '../../src/exercises/sticking';

const PLAN: PhrasePlan = {
  pattern: parseSticking('Rlrr Lrll')[0],
  partialsPerBeat: 4,
  beatsPerBar: 4,
  rule: 'accent walk',
  lead: 'right',
  stage: 'walk',
  seed: 7,
  cycles: 8,
};
const names = (more: Partial<PhrasePlan>): string[] =>
  buildPhrase({ ...PLAN, ...more }).bars.map((bar) => bar.variation);
const stickings = (more: Partial<PhrasePlan>): string[] =>
  buildPhrase({ ...PLAN, ...more }).bars.map((bar) => bar.sticking);

describe('a phrase from a pattern and rules', () => {
  it('is the bundled accent walk, bar for bar', () => {
    expect(buildPhrase(PLAN).bars).toEqual(phraseNamed('Single paradiddle, accent walk').bars);
    expect(buildPhrase({ ...PLAN, lead: 'left' }).bars).toEqual(
      phraseNamed('Single paradiddle, accent walk, left lead').bars,
    );
    expect(buildPhrase({ ...PLAN, lead: 'both, a cycle each' }).bars).toEqual(
      phraseNamed('Single paradiddle, accent walk, both leads').bars,
    );
  });

  it('is the bundled rotations, labelled by their hands', () => {
    expect(buildPhrase({ ...PLAN, rule: 'rotations' }).bars).toEqual(
      phraseNamed('Single paradiddle, rotations').bars,
    );
  });

  it('goes from hand to hand with a bar of each lead', () => {
    expect(names({ lead: 'both, a bar each', rule: 'rotations' }).slice(0, 4)).toEqual([
      'RLRR LRLL',
      'LRLL RLRR',
      'RLLR LRRL',
      'LRRL RLLR',
    ]);
  });

  it('turns a pattern written with the left lead to the right', () => {
    expect(stickings({ pattern: parseSticking('Lrll Rlrr')[0], rule: 'as written' })).toEqual([
      'Rlrr Lrll Rlrr Lrll',
    ]);
  });

  it('has 4 bars of each to learn, 2 to join, 1 to walk', () => {
    expect(names({ stage: 'learn' }).slice(2, 6)).toEqual([
      'accent on 1',
      'accent on 1',
      'accent on 2',
      'accent on 2',
    ]);
    expect(names({ stage: 'learn' })).toHaveLength(16);
    expect(names({ stage: 'join' })).toHaveLength(8);
    expect(names({ stage: 'walk' })).toHaveLength(4);
  });

  it('tests with half bars: bars of half the beats', () => {
    const test = buildPhrase({ ...PLAN, stage: 'test' });
    expect(test.beatsPerBar).toBe(2);
    expect(test.bars.map((bar) => bar.sticking)).toEqual([
      'Rlrr Lrll',
      'rLrr lRll',
      'rlRr lrLl',
      'rlrR lrlL',
    ]);
  });

  it('shuffles anew for every cycle, each variation once in it, and the same again with the same seed', () => {
    const shuffle = buildPhrase({ ...PLAN, stage: 'shuffle' });
    expect(shuffle.cycles).toBe(1);
    expect(shuffle.bars).toHaveLength(32);
    const cycles = Array.from({ length: 8 }, (_, cycle) =>
      shuffle.bars.slice(cycle * 4, cycle * 4 + 4).map((bar) => bar.variation),
    );
    for (const cycle of cycles) {
      expect([...cycle].sort()).toEqual(['accent on 1', 'accent on 2', 'accent on 3', 'accent on 4']);
    }
    expect(new Set(cycles.map((cycle) => cycle.join())).size).toBeGreaterThan(4);
    expect(buildPhrase({ ...PLAN, stage: 'shuffle' })).toEqual(shuffle);
    expect(buildPhrase({ ...PLAN, stage: 'shuffle', seed: 8 }).bars).not.toEqual(shuffle.bars);
    expect(shuffle.title).toBe('Rlrr Lrll, accent walk, shuffle 7');
  });

  it('runs a paradiddle over quintuplets for two bars', () => {
    expect(
      buildPhrase({ ...PLAN, partialsPerBeat: 5, rule: 'another subdivision', stage: 'join' }).bars,
    ).toEqual(
      [1, 2, 1, 2].map((bar) => ({
        variation: `RlrrLrll in quintuplets, bar ${bar}`,
        sticking: bar === 1 ? 'RlrrL rllRl rrLrl lRlrr' : 'LrllR lrrLr llRlr rLrll',
      })),
    );
  });

  it('crosses rotations with accents: 4 by 4', () => {
    const crossed = names({ rule: 'accents by rotations' });
    expect(crossed).toHaveLength(16);
    expect(crossed[6]).toBe('RLLR LRRL, accent on 3');
    expect(stickings({ rule: 'accents by rotations' })[6]).toBe('rlLr lrRl rlLr lrRl');
  });

  it('leaves one hand alone', () => {
    expect(stickings({ rule: 'left hand alone' })).toEqual(['-l-- L-ll -l-- L-ll']);
    expect(names({ rule: 'left hand alone', lead: 'left' })).toEqual(['left hand alone, left lead']);
  });

  it('keeps grace notes through the walk of a flam accent', () => {
    const pattern = parseSticking('{l}Rlr {r}Lrl')[0];
    expect(stickings({ pattern, partialsPerBeat: 3 })).toEqual([
      '{l}Rlr {r}Lrl {l}Rlr {r}Lrl',
      '{l}rLr {r}lRl {l}rLr {r}lRl',
      '{l}rlR {r}lrL {l}rlR {r}lrL',
    ]);
  });

  it.each([
    [{ cycles: 0 }, 'cycles must be a whole number from 1 to 1000, got 0'],
    [{ partialsPerBeat: 2.5 }, 'partialsPerBeat must be a whole number from 1 to 12, got 2.5'],
    [{ beatsPerBar: 17 }, 'beatsPerBar must be a whole number from 1 to 16, got 17'],
    [{ seed: NaN }, 'seed must be a whole number, got NaN'],
    [{ pattern: parseSticking('----')[0] }, 'pattern must have at least one stroke'],
    [
      { beatsPerBar: 3, stage: 'test' },
      'beatsPerBar must be even where each variation lasts half a bar, got 3',
    ],
    [{ beatsPerBar: 1 }, 'pattern must fit its bar: 8 partials in a bar of 4'],
    [{ stage: 'shuffle', cycles: 1000, rule: 'accents by rotations' }, 'phrase must have at most 4096 bars'],
  ] as const)('refuses %j', (more, message) => {
    expect(() => buildPhrase({ ...PLAN, ...more })).toThrow(message);
  });

  it('makes full bars of every rudiment by every rule, lead and stage; a name has one sticking', () => {
    const wrong: string[] = [];
    for (const row of rudiments) {
      if (row.kind === 'unmeasured') continue;
      const pattern = parseSticking(row.sticking).flat();
      for (const rule of variationRules) {
        for (const [at, stage] of stages.entries()) {
          const plan = { ...PLAN, pattern, rule, stage, lead: leads[at % 4], cycles: 2, beatsPerBar: 12 };
          const phrase = buildPhrase({ ...plan, partialsPerBeat: row.partialsPerBeat });
          const found = new Map<string, string>();
          phrase.bars.forEach((bar, index) => {
            // Throws where the bar is not full.
            barSticking(phrase, index);
            const before = found.get(bar.variation);
            if (before !== undefined && before !== bar.sticking) {
              expect.fail(
                `${row.name}, ${rule}, ${stage}: ${bar.variation} is ${before} and ${bar.sticking}`,
              );
            }
            found.set(bar.variation, bar.sticking);
          });
        }
      }
    }
    expect(wrong).toEqual([]);
  });
});
