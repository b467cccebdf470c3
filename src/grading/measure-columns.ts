import { judgedMeasures, type JudgedKey } from './measures';

/** The measures that have a column of their own in a table of variations, from the left. */
export function columnsOn(where: 'page' | 'terminal'): readonly JudgedKey[] {
  return judgedMeasures
    .flatMap(({ key, column }) => (column?.on.includes(where) ? [{ key, rank: column.rank }] : []))
    .sort((a, b) => a.rank - b.rank)
    .map(({ key }) => key);
}
