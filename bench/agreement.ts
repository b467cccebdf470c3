import { saidOf } from '../tests/agreement/contradictions';
import type { Table } from './table';

const TAKES = Number(process.env.TAKES ?? 5000);
const FIRST_SEED = 150_000;
const SHOWN = 2;

/** Whether any two lines of one take contradict each other: what `npm test` asks of a few hundred. */
export function run(): Promise<readonly Table[]> {
  const found = new Map<string, string[]>();
  for (let seed = FIRST_SEED; seed < FIRST_SEED + TAKES; seed += 1) {
    for (const { name, words } of saidOf(seed)) {
      found.set(name, [...(found.get(name) ?? []), `${seed}: ${words}`]);
    }
  }
  const rows = [...found].map(([name, words]) => [
    name,
    String(words.length),
    words.slice(0, SHOWN).join(' / '),
  ]);
  const title = `Contradictions in ${TAKES} model takes of all kinds, seeds from ${FIRST_SEED}`;
  return Promise.resolve([{ title, columns: ['contradiction', 'takes', 'such as'], rows }]);
}
