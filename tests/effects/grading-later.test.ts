import { describe, expect, it } from 'vitest';
import { leftToGrade } from '../../src/effects/grading-later';
import type { Graded } from '../../src/sessions/take-record';

const graded = (version: Graded['version']): Graded => ({ version, weakest: null, measures: {}, bars: [] });
const records = [
  { id: 'new', graded: graded(2), sentence: 'Every variation holds.' },
  { id: 'of the first reports', graded: graded(1), sentence: 'Every variation holds.' },
  { id: 'never graded', graded: null, sentence: '' },
  { id: 'does not fit', graded: null, sentence: 'The take does not fit its grid.' },
];

describe('takes to be graded while there is time', () => {
  it('are those without figures and those of an older report; all without figures when first looked at', () => {
    expect(leftToGrade(records, false)).toEqual(['of the first reports', 'never graded', 'does not fit']);
    expect(leftToGrade(records, true)).toEqual(['of the first reports', 'never graded']);
  });

  it('are none once each has the figures of this version, or a reason for none', () => {
    expect(leftToGrade([records[0], records[3]], true)).toEqual([]);
  });
});
