import type { Phrase } from '../../exercises/types';
import { phraseKeyOf } from '../take-record';
import type { WeekExercise, WeekSheet } from '../week-sheet';

/** A week's practice is no longer than this. */
export const MOST_EXERCISES = 6;

/** What a sheet asks for, in order: the first stands in the sheet itself, as in one of an earlier Evenhand. */
export function exercisesOf(sheet: WeekSheet): readonly WeekExercise[] {
  const { phrase, bpm, targets, words, minutes, before, more = [] } = sheet;
  return [
    {
      phrase,
      bpm,
      targets,
      words,
      ...(minutes === undefined ? {} : { minutes }),
      ...(before === undefined ? {} : { before }),
    },
    ...more,
  ];
}

/**
 * A sheet of these exercises, in their order; there is one at least. One of a single exercise that an earlier Evenhand
 * knows all of is written so that it opens it; of more it would show the first alone, so that it has to refuse it.
 */
export function withExercises(sheet: WeekSheet, exercises: readonly WeekExercise[]): WeekSheet {
  const [first, ...more] = exercises;
  const bare = Object.fromEntries(Object.entries(sheet).filter(([key]) => !OWN.includes(key))) as WeekSheet;
  const isPlain = more.length === 0 && first.minutes === undefined && first.before === undefined;
  return { ...bare, ...first, version: isPlain ? 1 : 2, ...(more.length === 0 ? {} : { more }) };
}

/** Keys that only version 2 has. */
const OWN = ['minutes', 'before', 'more'];

/** The sheet with one of its exercises as if it were the first: what is written of one is written of that. */
export function sheetOf(sheet: WeekSheet, index: number): WeekSheet {
  const exercises = exercisesOf(sheet);
  return withExercises(sheet, [exercises[Math.min(index, exercises.length - 1)]]);
}

/** Which exercises a phrase is of; none where it is of another. Two may be of one phrase, at two tempos. */
export function exercisesWith(sheet: WeekSheet, phrase: Phrase): readonly WeekExercise[] {
  return exercisesOf(sheet).filter((one) => isOfExercise(sheet, one, phrase));
}

/** Whether a take of that phrase is one of that exercise; of a sheet with one alone it is. */
export function isOfExercise(
  sheet: WeekSheet,
  { phrase: of }: Pick<WeekExercise, 'phrase'>,
  phrase: Phrase,
): boolean {
  return exercisesOf(sheet).length === 1 || phraseKeyOf(of) === phraseKeyOf(phrase);
}
