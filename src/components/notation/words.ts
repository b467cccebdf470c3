import type { Note } from '../../exercises/types';
import type { PlannedMeasure, PlannedNote } from './plan';
import { plural } from '../../text';

const HANDS = { R: 'right', L: 'left' } as const;

/**
 * Notation in words, for screen readers: bar by bar, beat by beat.
 * One bar of `Rlrr Lrll`, named accent on 1, is "Bar 1, accent on 1: beat 1, right accent, left tap, right tap, right
 * tap; beat 2, left accent, …".
 */
export function notationWords(plan: readonly PlannedMeasure[]): string {
  return plan.map(measureWords).join(' ');
}

function measureWords({ index, label, hands, feet }: PlannedMeasure): string {
  const beats = hands.map(({ notes, tuplets }, beat) => {
    const number = tuplets.length === 0 ? '' : ` in ${tuplets.map((tuplet) => tuplet.number).join(' and ')}`;
    return [`beat ${beat + 1}${number}`, ...notes.map(noteWords)].join(', ') + feetWords(feet[beat]);
  });
  return `Bar ${index + 1}${label === '' ? '' : `, ${label}`}: ${beats.join('; ')}.`;
}

function noteWords({ notes, graces }: PlannedNote): string {
  if (notes.length === 0) return 'rest';
  const grace =
    graces.length === 0
      ? ''
      : `${graces.length === 1 ? 'one' : 'two'} ${HANDS[graces[0]]} ${plural(graces.length, 'grace')} before `;
  return grace + notes.map(strokeWords).join(' with ');
}

const strokeWords = ({ hand, kind }: Note): string => `${HANDS[hand]} ${kind}`;

function feetWords(beat: PlannedMeasure['feet'][number] | undefined): string {
  const feet = beat?.notes.flatMap((note) => note.feet) ?? [];
  if (feet.length === 0) return '';
  return `; feet ${feet.map(({ foot }) => (foot === 'K' ? 'bass drum' : 'hi-hat')).join(', ')}`;
}
