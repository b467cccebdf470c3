import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Phrase } from '../../src/exercises/types';
import { gradeTake } from '../../src/take/grade-take';
import { liveSteps } from '../../src/take/live/step';
import { modelTake } from '../../src/model/model-player';
import { settingsOf } from '../../src/settings';

const TOKENS = [
  'R',
  'L',
  'r',
  'l',
  '(r)',
  '(l)',
  '-',
  '{l}R',
  '{r}L',
  '{r}l',
  '{ll}R',
  '{rr}l',
  '[RL]',
  '[Rl]',
  '[rl]',
];
const bar = fc
  .array(fc.constantFrom(...TOKENS), { minLength: 8, maxLength: 8 })
  .map((tokens) => tokens.join(''));
const tokensOfFeet = fc.array(fc.constantFrom('K', 'k', 'H', 'h', '[KH]', '-'), {
  minLength: 1,
  maxLength: 9,
});

/** Any phrase of two bars, with graces, unisons, rests, feet, swing, roles and dyn; its first bar has a stroke on one. */
const phrases = fc
  .record({
    bars: fc.tuple(bar, bar),
    feet: fc.option(tokensOfFeet, { nil: undefined }),
    swing: fc.constantFrom(0.5, 0.55, 0.6),
    role: fc.constantFrom('play' as const, 'listen' as const, 'say' as const),
    dyn: fc.constantFrom(undefined, 'p <', 'mp f', 'mf'),
  })
  .map(({ bars: [first, second], feet, swing, role, dyn }): Phrase => {
    const begun = `R${'rlrlrlr'}`;
    return {
      title: 'any phrase',
      beatsPerBar: 2,
      partialsPerBeat: 4,
      cycles: 8,
      swing,
      ...(feet === undefined ? {} : { feet: feet.join('') }),
      bars: [
        { variation: 'beginning', sticking: begun },
        { variation: 'one', sticking: first, role, ...(dyn === undefined ? {} : { dyn }) },
        { variation: 'two', sticking: second },
      ],
    };
  });

const steady = { bpm: 90, seed: 5, timingSdMs: 0.5, levelSdDb: 0.3 } as const;

describe('laws of any phrase', () => {
  it('on two pads a good take of it has every slot matched and nothing over', () => {
    fc.assert(
      fc.property(phrases, (phrase) => {
        const { take, grid, truth } = modelTake({ ...steady, phrase, surfaces: 2 });
        const report = gradeTake(take);
        expect(report.misfit).toBeNull();
        expect({ ...report.counts, slots: 0 }).toMatchObject({
          matched: grid.slots.length,
          missed: 0,
          extra: 0,
          wrongHand: 0,
          notMeasured: 0,
          crosstalk: 0,
        });
        if (truth.graceHits.length > 0) expect(report.counts.gracesMissed).toBe(0);
        if (grid.feet.length > 0) {
          expect(report.feet?.counts).toMatchObject({ matched: grid.feet.length, missed: 0, extra: 0 });
        }
      }),
      { numRuns: 60 },
    );
  });

  it('on one pad what is not measured is the unisons, and nothing is missed or over', () => {
    fc.assert(
      fc.property(phrases, (phrase) => {
        const { take, grid } = modelTake({ ...steady, phrase });
        const { counts } = gradeTake(take);
        const unisons = grid.slots.filter(({ together }) => together === 2).length;
        expect(counts).toMatchObject({
          matched: grid.slots.length - unisons,
          notMeasured: unisons,
          missed: 0,
          extra: 0,
        });
      }),
      { numRuns: 60 },
    );
  });

  it('the feet change nothing of what is said of the hands', () => {
    fc.assert(
      fc.property(phrases, (phrase) => {
        const rest: Omit<Phrase, 'feet'> & { feet?: string } = { ...phrase };
        delete rest.feet;
        const alone = gradeTake(modelTake({ ...steady, phrase: rest, surfaces: 2 }).take);
        const { feet, ...hands } = gradeTake(modelTake({ ...steady, phrase, surfaces: 2 }).take);
        expect(hands).toEqual(alone);
        expect(feet === undefined).toBe(phrase.feet === undefined || !/[KkHh]/.test(phrase.feet));
      }),
      { numRuns: 30 },
    );
  });

  it('followed hit by hit it ends as the whole take does', () => {
    fc.assert(
      fc.property(phrases, fc.constantFrom(1 as const, 2 as const), (phrase, surfaces) => {
        const { take, grid } = modelTake({ ...steady, phrase, surfaces });
        const { slots } = gradeTake(take);
        const { start, step } = liveSteps(grid, take.rig, settingsOf('working'));
        const run = take.hits.reduce((state, hit) => step(state, { kind: 'hit', hit }), start);
        const { passes, extras } = step(run, { kind: 'tick', atMs: Infinity }).shown;
        const shown = slots.map(
          (_, index) =>
            passes[index % grid.slotsPerCycle].find(({ cycle }) => cycle === grid.slots[index].cycle)
              ?.levelDb ?? null,
        );
        // Grading design: live and whole agree on at least 99 % of the slots of a take.
        const differ = slots.filter(({ level }, index) => level !== shown[index]).length;
        expect(differ).toBeLessThanOrEqual(slots.length / 100);
        expect(extras.length).toBeLessThanOrEqual(slots.length / 100);
      }),
      {
        numRuns: 40,
        // A drag right after a drag: the second one's first grace note comes as near to the main stroke as a grace would.
        examples: [
          [
            {
              title: 'drag after drag',
              beatsPerBar: 2,
              partialsPerBeat: 4,
              cycles: 8,
              swing: 0.6,
              bars: [
                { variation: 'beginning', sticking: 'Rrlrlrlr' },
                { variation: 'one', sticking: 'RRRRRRRR', role: 'say' },
                { variation: 'two', sticking: '{rr}l{ll}RR{rr}l{rr}l{r}LR[RL]' },
              ],
            },
            2,
          ],
        ],
      },
    );
  });
});
