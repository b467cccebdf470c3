import { describe, expect, it } from 'vitest';
import { type Pace, movedPace, paceOf, steadyPace, tempoOf } from '../../src/state/pace';
import { lengthWords, tempoWords } from '../../src/components/phrase/phrase-words';

const four = { cycles: 2, bars: [{}, {}, {}, {}] };

describe('what the tempo does over a take', () => {
  it('is told again from the tempo', () => {
    for (const shape of ['to the end', 'there and back'] as const) {
      const pace: Pace = { shape, toBpm: 132 };
      expect(paceOf(tempoOf(four, 60, pace))).toEqual({ bpm: 60, pace });
    }
    expect(paceOf(tempoOf(four, 84, steadyPace))).toEqual({ bpm: 84, pace: steadyPace });
  });

  it('goes only to a tempo that can be played', () => {
    expect(() => movedPace(steadyPace, { toBpm: 500 })).toThrow(
      'Tempo to go to must be a tempo from 20 to 400 bpm',
    );
  });

  // From 60 to 120 bpm a beat is 750 ms on average: 32 beats last 24 s.
  it('is said, and the length with it', () => {
    const bars = Array.from({ length: 4 }, () => ({ beats: 4 }));
    expect(lengthWords(bars, 2, 60, { shape: 'to the end', toBpm: 120 })).toBe(
      '4 bars, 2 times round: 24 s, 60 to 120 bpm',
    );
    expect(tempoWords(84)).toBe('84 bpm');
  });
});
