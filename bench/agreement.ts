import { InputError } from '../src/errors';
import { saidOf, type Contradiction } from '../tests/agreement/contradictions';
import type { Table } from './table';

const TAKES = Number(process.env.TAKES ?? 5000);
const FIRST_SEED = Number(process.env.SEED ?? 150_000);
const SHOWN = 2;

/** Whether any two lines of one take contradict each other: what `npm test` asks of a few hundred. */
export function run(): Promise<readonly Table[]> {
  const found = new Map<string, string[]>();
  for (let seed = FIRST_SEED; seed < FIRST_SEED + TAKES; seed += 1) {
    for (const { name, words } of saidOrRefused(seed)) {
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

/** A take that can't be graded (in free time one whose strokes keep no time) says nothing that could contradict itself. */
function saidOrRefused(seed: number): readonly Contradiction[] {
  try {
    return saidOf(seed);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return [{ name: 'refused, no contradiction', words: error.message }];
  }
}
