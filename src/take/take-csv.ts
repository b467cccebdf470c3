import { reportOf } from '../grading/report';
import { takeCsv } from '../sessions/csv';
import type { Take } from '../sessions/types';
import { gradedOf } from './grade-take';

/**
 * A take as comma-separated values: a row a slot and a row an extra.
 * @throws InputError as `gradeTake`
 */
export function csvOfTake(take: Take): string {
  const graded = gradedOf(take);
  const extras = graded.alignment.extras.map(({ stroke, bar }) => {
    const { atMs, levelDb, hand } = graded.strokes[stroke];
    return { bar, atMs, levelDb, hand };
  });
  return takeCsv(reportOf(graded), graded.grid, extras);
}
