import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { notationPlan, type PlannedBeat, type PlannedNote } from '../../../src/components/notation/plan';
import { writtenSpan } from '../../../src/exercises/rhythm';
import { phraseFromText, phraseNamed } from '../../../src/exercises/phrase';
import { rudimentPhrase } from '../../../src/exercises/rudiment-phrase';
import { rudiments } from '../../../src/exercises/rudiments';
import type { Phrase } from '../../../src/exercises/types';

function plan(text: string, partialsPerBeat: number, beatsPerBar = 1) {
  return notationPlan(phraseFromText(text, { beatsPerBar, partialsPerBeat, cycles: 1 }));
}

function beat(text: string, partials: number): PlannedBeat<PlannedNote> {
  return plan(text, partials)[0].hands[0];
}

/** Value, a dot where dotted, r for a rest: `8. 16 r16`. */
function values({ notes }: PlannedBeat<PlannedNote>): string {
  return notes
    .map(({ value, dotted, notes: heads }) => `${heads.length === 0 ? 'r' : ''}${value}${dotted ? '.' : ''}`)
    .join(' ');
}

const numbers = ({ tuplets }: PlannedBeat<PlannedNote>): string =>
  tuplets.map(({ number, inSpaceOf, notes }) => `${number}:${inSpaceOf} over ${notes}`).join(', ');

// Source: common practice of writing drum parts, no source.
describe('a beat is written', () => {
  it.each([
    ['Rlrr', 4, '16 16 16 16', ''],
    ['R-', 2, '4', ''],
    ['R-rl', 4, '8 16 16', ''],
    ['R--l', 4, '8. 16', ''],
    ['Rl--', 4, '16 8.', ''],
    ['-rlr', 4, 'r16 16 16 16', ''],
    ['--rl', 4, 'r8 16 16', ''],
    ['---l', 4, 'r8 r16 16', ''],
    ['rrllR---', 8, '32 32 32 32 8', ''],
    ['R-l-r-r-', 8, '16 16 16 16', ''],
    ['R----l--', 8, '8 r32 16.', ''],
    ['Rlr', 3, '8 8 8', '3:2 over 3'],
    ['R-l', 3, '4 8', '3:2 over 2'],
    ['--l', 3, 'r8 r8 8', '3:2 over 3'],
    ['Rlrrl', 5, '16 16 16 16 16', '5:4 over 5'],
    ['Rlrlrr', 6, '16 16 16 16 16 16', '6:4 over 6'],
    ['R-l-r-', 6, '8 8 8', '3:2 over 3'],
    ['R--l--', 6, '8 8', ''],
    ['R-llr-', 6, '8 16 16 8', '3:2 over 4'],
    ['rlrL--', 6, '16 16 16 8', '3:2 over 3'],
    ['R--lrl', 6, '8 16 16 16', '3:2 over 3'],
    ['Rlrlrrl', 7, '16 16 16 16 16 16 16', '7:4 over 7'],
  ] as const)('%s of %i partials as %s %s', (text, partials, written, tuplet) => {
    expect(values(beat(text, partials))).toBe(written);
    expect(numbers(beat(text, partials))).toBe(tuplet);
  });

  it('with its rests as one where nothing sounds', () => {
    expect(plan('Rlrr ----', 4, 2)[0].hands.map(values)).toEqual(['16 16 16 16', 'r4']);
  });

  it('full to the last partial, whatever is struck', () => {
    const partials = fc.array(fc.boolean(), { minLength: 1, maxLength: 16 });
    fc.assert(
      fc.property(partials, (struck) => {
        const span = writtenSpan(struck);
        const lengths = span?.notes.map((note) => note.length) ?? [];
        expect(lengths.reduce((sum, length) => sum + length, 0)).toBe(struck.length);
        const sounding = span?.notes.filter((note) => !note.rest).map((note) => note.partial);
        expect(sounding).toEqual(struck.flatMap((stroke, index) => (stroke ? [index] : [])));
      }),
    );
  });

  it('as long as a quarter, tuplets counted', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 1, maxLength: 12 }), (struck) => {
        const span = writtenSpan(struck);
        const wholes = span?.notes.map((note, index) => {
          const under = span.tuplets.find(({ first, notes }) => index >= first && index < first + notes);
          const squeezed = under === undefined ? 1 : under.inSpaceOf / under.number;
          return ((note.dotted ? 1.5 : 1) / note.value) * squeezed;
        });
        expect(wholes?.reduce((sum, whole) => sum + whole, 0)).toBeCloseTo(1 / 4, 12);
      }),
    );
  });
});

describe('the plan of a phrase', () => {
  it('counts what is written, and halves where a beat is read in halves', () => {
    const counts = (text: string, partials: number) => beat(text, partials).notes.map(({ count }) => count);
    expect(counts('Rlrr', 4)).toEqual(['1', 'e', '&', 'a']);
    expect(counts('Rlr', 3)).toEqual(['1', '&', 'a']);
    expect(counts('R-rl', 4)).toEqual(['1', '&', 'a']);
    expect(counts('rlrL--', 6)).toEqual(['1', '', '', '&']);
    expect(counts('L--r--', 6)).toEqual(['1', '&']);
    expect(counts('rrllR---', 8)).toEqual(['1', '', 'e', '', '&']);
    expect(counts('Rlrlrl', 6)).toEqual(['1', '', '&', '', 'a', '']);
  });

  it('keeps graces, ghosts and unisons on their notes', () => {
    const [flam, ghost, both] = beat('{l}R(l)[RL]-', 4).notes;
    expect(flam.graces).toEqual(['L']);
    expect(ghost.notes).toEqual([{ hand: 'L', kind: 'ghost' }]);
    expect(both.notes.map(({ hand }) => hand)).toEqual(['R', 'L']);
  });

  it('labels a bar where the variation changes, not by the sticking that stands there anyway', () => {
    const walk = notationPlan(phraseNamed('Single paradiddle, accent walk'));
    expect(walk.map(({ label }) => label)).toEqual([
      'accent on 1',
      'accent on 2',
      'accent on 3',
      'accent on 4',
    ]);
    expect(plan('Rlrr', 4)[0].label).toBe('');
  });

  it('names a bar to listen to', () => {
    const phrase: Phrase = { ...phraseNamed('Single paradiddle, accents off') };
    const bars = phrase.bars.flatMap((bar) => [{ ...bar, role: 'listen' as const }, bar]);
    expect(notationPlan({ ...phrase, bars }).map(({ label }) => label)).toEqual([
      'listen: accents off',
      'accents off',
    ]);
  });

  it('repeats the feet through the cycle, across bar lines', () => {
    const phrase = {
      ...phraseFromText('RLR | LRL', { beatsPerBar: 3, partialsPerBeat: 1, cycles: 1 }),
      feet: 'KH',
    };
    const feet = notationPlan(phrase).map((bar) =>
      bar.feet.map(({ notes }) => notes.map((note) => note.feet[0]?.foot ?? '-').join('')).join(''),
    );
    expect(feet).toEqual(['KHK', 'HKH']);
  });

  it('writes each of the rudiments that MIDI can show', () => {
    for (const { number, kind } of rudiments) {
      if (kind === 'measured') expect(notationPlan(rudimentPhrase(number)).length).toBeGreaterThan(0);
    }
  });

  it('says what can’t be engraved, and where', () => {
    const text = 'Rl'.repeat(16);
    expect(() => plan(text, 32)).toThrow(
      'bars[0].sticking can’t be engraved: beat 1 of 32 partials needs notes shorter than a sixty-fourth',
    );
  });

  it('says where a feet line is wrong', () => {
    const phrase = { ...phraseFromText('RL', { beatsPerBar: 1, partialsPerBeat: 2, cycles: 1 }), feet: 'Kx' };
    expect(() => notationPlan(phrase)).toThrow(/^feet: line 1, column 2 must be K/);
  });
});
