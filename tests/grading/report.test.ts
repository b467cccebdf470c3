import { describe, expect, it } from 'vitest';
import { reportOf } from '../../src/grading/report';
import { accentWalk, played } from './played';

describe('a report', () => {
  it('of a take in which every stroke is right holds in every measure', () => {
    const report = reportOf(played({ bars: accentWalk, cycles: 8 }));
    expect(report.variations.map(({ band }) => band)).toEqual(['holds', 'holds', 'holds', 'holds']);
  });
});
