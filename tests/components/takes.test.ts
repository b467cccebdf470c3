import { describe, expect, it } from 'vitest';
import { reasonIn } from '../../src/components/takes/reason-words';
import { gradedRecord } from '../../src/insight/graded-record';
import { phraseNamed } from '../../src/exercises/phrase';
import type { Fault } from '../../src/model/faults';
import { modelTake } from '../../src/model/model-player';
import { gradeTake } from '../../src/take/grade-take';

const phrase = phraseNamed('Single paradiddle, accent walk');

describe('why a take is as it is, in a few words', () => {
  const reasonOf = (faults: readonly Fault[]): string => {
    const { take } = modelTake({
      phrase,
      bpm: 84,
      seed: 21,
      cycles: 8,
      timingSdMs: 4,
      levelSdDb: 0.6,
      faults,
    });
    const report = gradeTake(take);
    return reasonIn({ graded: gradedRecord(take, report), sentence: report.sentence });
  };

  it('names the measure that is out', () => {
    expect(reasonOf([{ kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' }])).toBe(
      'leak before',
    );
  });

  it('says that all hold, that it is not graded yet, or cannot be', () => {
    expect(reasonOf([])).toBe('all bars hold');
    expect(reasonIn({ graded: null, sentence: '' })).toBe('not graded yet');
    expect(reasonIn({ graded: null, sentence: 'Something else was played.' })).toBe('doesn’t fit its grid');
  });
});
