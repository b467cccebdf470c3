import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { changesIn } from './mutants/changes';
import { chosenOf } from './mutants/choose';
import { countsOf, knownOf, tableOf, type Known, type Tried } from './mutants/table';
import { fateOf, planted, testFilesOf, type Fate } from './mutants/tried';

/**
 * `npm run mutants [-- --count N] [--seed N] [--in FOLDER,…] [--file PART] [--out FILE]`: plants that many one-line bugs, a
 * seeded choice, in a copy of the project, switches them on one after the other, and tells how many the unit tests catch.
 * An hour or more: it is no part of `npm test`. Bugs that change nothing, and survivors with why, are in
 * `scripts/mutants/known.json`.
 */
const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '180' },
    seed: { type: 'string', default: '1' },
    in: { type: 'string', default: 'alignment,grading,midi,take,sessions,cli' },
    file: { type: 'string', default: '' },
    out: { type: 'string' },
  },
});
const say = (text: string): void => void process.stderr.write(`${text}\n`);

const KNOWN = 'scripts/mutants/known.json';
const known = existsSync(KNOWN) ? (JSON.parse(readFileSync(KNOWN, 'utf8')) as readonly Known[]) : [];
const files = values.in
  .split(',')
  .flatMap((folder) =>
    readdirSync(join('src', folder), { recursive: true, encoding: 'utf8' }).map((name) =>
      join('src', folder, name),
    ),
  )
  .filter((file) => file.endsWith('.ts'))
  .filter((file) => file.includes(values.file))
  .sort();
const all = files.flatMap((file) => changesIn(file, readFileSync(file, 'utf8')));
const chosen = chosenOf(all, Number(values.count), Number(values.seed));
say(`${chosen.length} of ${all.length} bugs in ${files.length} files, seed ${values.seed}`);

const folder = mkdtempSync(join(tmpdir(), 'evenhand-mutants-'));
const garden = planted(join(folder, 'copy'), chosen);
const { files: tests, failing } = await testFilesOf(garden);
say(
  `${tests.length} test files reach them${failing.length > 0 ? `; failing with all off: ${failing.join(', ')}` : ''}`,
);

/** A bug known to change nothing needs no hour of tests. */
const NOT_RUN: Fate = { kind: 'survived', files: 0 };
const tried: Tried[] = [];
for (const [number, change] of chosen.entries()) {
  const why = knownOf(change, known);
  const fate = why?.kind === 'same' ? NOT_RUN : await fateOf(garden, number, tests);
  tried.push({ change, fate, ...(why === undefined ? {} : { known: why }) });
  const word = fate.kind === 'caught' ? `caught by ${fate.by}` : fate.kind;
  say(`${number + 1}/${chosen.length} ${change.file}:${change.line} ${change.kind}: ${word}`);
  if (fate.kind === 'survived') say(`    ${change.was}\n    ${change.becomes}`);
}
rmSync(folder, { recursive: true, force: true });

const { planted: n, caught, same, survived, share } = countsOf(tried);
const head = `${n} bugs (seed ${values.seed}), ${caught} caught, ${same} that change nothing, ${survived} survived: ${share.toFixed(1)} % of those that change something are caught.`;
const table = tableOf(tried, head);
if (values.out !== undefined) writeFileSync(values.out, table);
process.stdout.write(table);
