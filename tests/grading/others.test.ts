import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { choiceOf, chosenOf, ledBy } from '../../src/grading/chosen';
import { remedyOf } from '../../src/grading/remedy/remedy';
import type { Report } from '../../src/grading/types';
import { strengthWords } from '../../src/grading/words';
import type { Fault } from '../../src/model/faults';
import { modelTake } from '../../src/model/model-player';
import { gradeTake } from '../../src/take/grade-take';

const WALK = phraseNamed('Single paradiddle, accent walk');

const leak: Fault = { kind: 'leak-before', hand: 'L', db: 7, variation: 'accent on 4' };
const late: Fault = { kind: 'late', hand: 'L', ms: 16 };
const flat: Fault = { kind: 'accents', db: -5, variation: 'accent on 2' };

const graded = (faults: readonly Fault[], phrase = WALK): Report =>
  gradeTake(
    modelTake({ phrase, bpm: 84, seed: 21, cycles: 8, timingSdMs: 4, levelSdDb: 0.6, surfaces: 2, faults })
      .take,
  );

describe('what is out beside what leads', () => {
  const report = graded([leak, late, flat]);

  it('is none where nothing is out, nor where one fault is all', () => {
    expect(graded([]).others).toEqual([]);
    expect(graded([leak]).others).toEqual([]);
  });

  it('has every other fault once, where it lives, and never the one that leads', () => {
    expect(report.weakest).toMatchObject({ variation: 'accent on 4', measure: 'leakBefore', hand: 'L' });
    expect(report.others.map(({ measure, scope, variations }) => [measure, scope, variations])).toEqual(
      expect.arrayContaining([
        ['lag', 'hand', ['accent on 1', 'accent on 2', 'accent on 3', 'accent on 4']],
        ['contrast', 'variation', ['accent on 2']],
      ]),
    );
    expect(report.others.map(({ measure }) => measure)).not.toContain('leakBefore');
  });

  it('calls none of them the weak bar: there is one', () => {
    const words = report.others.map(({ sentence }) => sentence);
    expect(words.join(' ')).not.toMatch(/weak bar/);
    expect(words).toContainEqual(expect.stringMatching(/^In accent on 2, the accents are/));
    expect(words).toContainEqual(
      expect.stringMatching(/^In every variation the right hand comes 1\d ms earlier than the left/),
    );
  });

  it('has the weak bar itself where a slip is told before it', () => {
    const { slips, others, weakest } = graded([leak, { kind: 'slip', bar: 17, slot: 5, slots: 27 }]);
    expect(slips.length).toBeGreaterThan(0);
    expect(others).toContain(weakest);
  });

  it('a chosen one has its own remedy, certainty and picture; the report stays as it is', () => {
    const before = JSON.stringify(report);
    const lag = report.others.find(({ measure }) => measure === 'lag')!;
    const chosen = chosenOf(report, choiceOf(lag));
    expect(chosen).toBe(lag);
    const remedy = remedyOf(report, WALK, 84, {}, chosen)!;
    expect(remedy.evidence).toMatchObject({ measure: 'lag', variation: null });
    expect(remedy.stop.measure).toBe('lag');
    expect(remedy.sentence).toMatch(/the whole phrase/);
    expect(strengthWords(report, chosen)).toMatch(/^From \d+ strokes: close, for certain\./);
    expect(ledBy(report, chosen).weakest).toBe(lag);
    expect(ledBy(report, undefined)).toBe(report);
    expect(JSON.stringify(report)).toBe(before);
  });

  it('a choice that a report has no more is none', () => {
    expect(chosenOf(report, { measure: 'spill', hand: 'R' })).toBeUndefined();
    expect(chosenOf(report, { measure: 'nothing known here' })).toBeUndefined();
    expect(chosenOf(report, undefined)).toBeUndefined();
  });
});
