import { expect, it } from 'vitest';
import { notationPlan } from '../../../src/components/notation/plan';
import { notationWords } from '../../../src/components/notation/words';
import { phraseFromText, phraseNamed } from '../../../src/exercises/phrase';

// Common practice of reading a drum part aloud, no source.
function words(text: string, partialsPerBeat: number, beatsPerBar: number, feet?: string): string {
  const phrase = phraseFromText(text, { beatsPerBar, partialsPerBeat, cycles: 1 });
  return notationWords(notationPlan(feet === undefined ? phrase : { ...phrase, feet }));
}

it('a bar is read beat by beat', () => {
  expect(words('Rlrr Lrll', 4, 2)).toBe(
    'Bar 1: beat 1, right accent, left tap, right tap, right tap; beat 2, left accent, right tap, left tap, left tap.',
  );
});

it('a variation is said before its notes', () => {
  const walk = notationWords(notationPlan(phraseNamed('Single paradiddle, accent walk')));
  expect(walk).toMatch(/^Bar 1, accent on 1: beat 1, right accent, left tap/);
  expect(walk).toMatch(/Bar 4, accent on 4: beat 1, right tap, left tap, right tap, right accent;/);
});

it('graces come before their note, tuplets before their notes', () => {
  expect(words('{l}Rlr', 3, 1)).toBe(
    'Bar 1: beat 1 in 3, one left grace before right accent, left tap, right tap.',
  );
  expect(words('{ll}r-', 2, 1)).toBe('Bar 1: beat 1, two left graces before right tap.');
});

it('rests, ghosts, both hands and feet are said', () => {
  expect(words('-(r)[RL]-', 4, 1, 'K-H-')).toBe(
    'Bar 1: beat 1, rest, right ghost, right accent with left accent; feet bass drum, hi-hat.',
  );
});
