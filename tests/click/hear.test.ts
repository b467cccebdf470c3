import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heard, type Heard, type HearChoice } from '../../src/click/hear';
import { phraseFromText } from '../../src/exercises/phrase';
import type { Phrase } from '../../src/exercises/types';

const BOTH: HearChoice = { hand: 'both', speed: 'full', cycles: 1 };

function bar(text: string, partialsPerBeat: number, beatsPerBar: number): Phrase {
  return phraseFromText(text, { beatsPerBar, partialsPerBeat, cycles: 1 });
}

/** `R 0 -4`: by whom, when in ms, how loud in dB. */
function said({ notes }: Heard): string[] {
  return notes.map(({ by, atMs, levelDb }) => `${by} ${Math.round(atMs)} ${levelDb}`);
}

// At 120 bpm a beat lasts 500 ms, a sixteenth 125. Levels: common practice, no source.
describe('a phrase as sound', () => {
  it('has accents at -4, taps at -20 and ghosts at -26 dB, each on its partial', () => {
    expect(said(heard(bar('Rl(r)-', 4, 1), { bpm: 120 }, BOTH))).toEqual([
      'R 0 -4',
      'L 125 -20',
      'R 250 -26',
    ]);
  });

  it('has the grace of a flam 30 ms before its stroke, and those of a drag 30 ms apart', () => {
    expect(said(heard(bar('{l}R{rr}l', 2, 1), { bpm: 120 }, BOTH))).toEqual([
      'L -30 -26',
      'R 0 -4',
      'R 190 -26',
      'R 220 -26',
      'L 250 -20',
    ]);
  });

  it('squeezes graces where partials are short', () => {
    // A sixteenth at 300 bpm lasts 50 ms: a drag takes a third of it for each grace.
    const drag = heard(bar('r{rr}l--', 4, 1), { bpm: 300 }, BOTH);
    expect(drag.notes.map(({ atMs }) => Math.round(atMs))).toEqual([0, 17, 33, 50]);
  });

  it('is one hand alone where asked, without feet', () => {
    const phrase = { ...bar('Rlrr', 4, 1), feet: 'K-H-' };
    expect(said(heard(phrase, { bpm: 120 }, { ...BOTH, hand: 'L' }))).toEqual(['L 125 -20']);
    expect(said(heard(phrase, { bpm: 120 }, BOTH))).toEqual([
      'R 0 -4',
      'K 0 -8',
      'L 125 -20',
      'R 250 -20',
      'H 250 -8',
      'R 375 -20',
    ]);
  });

  it('takes twice as long at half speed', () => {
    const half = heard(bar('RLRL', 1, 4), { bpm: 120 }, { ...BOTH, speed: 'half' });
    expect(half.notes.map(({ atMs }) => atMs)).toEqual([0, 1000, 2000, 3000]);
    expect(half.lengthMs).toBe(4000);
  });

  it('starts from a bar where asked, and goes on round', () => {
    const phrase = bar('RR | LL', 1, 2);
    const from = heard(phrase, { bpm: 120 }, { ...BOTH, fromBar: 1, cycles: 2 });
    expect(from.notes.map(({ by }) => by).join('')).toBe('LLRRLL');
    expect(from.notes[0].atMs).toBe(0);
  });

  it('swings the second of two', () => {
    const swung = heard({ ...bar('Rl', 2, 1), swing: 0.6 }, { bpm: 60 }, BOTH);
    expect(swung.notes.map(({ atMs }) => Math.round(atMs))).toEqual([0, 600]);
  });

  it('sounds bars to listen to and not bars to count aloud', () => {
    const phrase = bar('RR | LL', 1, 2);
    const [first, second] = phrase.bars;
    const bars = [
      { ...first, role: 'say' as const },
      { ...second, role: 'listen' as const },
    ];
    expect(said(heard({ ...phrase, bars }, { bpm: 120 }, BOTH))).toEqual(['L 1000 -4', 'L 1500 -4']);
  });

  // SMF 1.0's table of dynamics: p is velocity 32, f 96; 40·log10(32/96) = −19.1 dB.
  it('is as much softer as its dynamics say', () => {
    const phrase = bar('Rl', 1, 2);
    const soft = { ...phrase, bars: [{ ...phrase.bars[0], dyn: 'p f' }] };
    expect(heard(soft, { bpm: 120 }, BOTH).notes.map(({ levelDb }) => levelDb.toFixed(1))).toEqual([
      '-23.1',
      '-20.0',
    ]);
  });

  it('is both hands’ notes, no more, no less', () => {
    const token = fc.constantFrom('R', 'l', '(r)', '{l}R', '{rr}L', '[RL]', '-');
    fc.assert(
      fc.property(
        fc.array(token, { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 20, max: 400 }),
        (tokens, bpm) => {
          const phrase = bar(tokens.join(''), tokens.length, 1);
          const of = (hand: HearChoice['hand']) => heard(phrase, { bpm }, { ...BOTH, hand }).notes;
          expect(of('R').length + of('L').length).toBe(of('both').length);
          const times = of('both').map(({ atMs }) => atMs);
          expect(times).toEqual(times.toSorted((a, b) => a - b));
        },
      ),
    );
  });
});
