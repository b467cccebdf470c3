import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { changesIn } from './mutants/changes';
import { chosenOf } from './mutants/choose';
import { countsOf, knownOf, tableOf, type Known, type Tried } from './mutants/table';
import { fateOf, fatesIn, planted, plantedBefore, testFilesOf, type Fate } from './mutants/tried';

/**
 * `npm run mutants [-- --count N] [--seed N] [--in FOLDER,…] [--file PART] [--longest SECONDS] [--folder DIR] [--out FILE]`:
 * plants that many one-line bugs, a seeded choice, in a copy of the project, switches them on one after the other, and tells
 * how many the unit tests catch. An hour or more: it is no part of `npm test`. With `--longest` test files that took longer
 * are left out: what is caught then is the least there is. With `--folder` a run that was broken off goes on where it was.
 * Bugs that change nothing, and survivors with why, are in `scripts/mutants/known.json`.
 */
const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '180' },
    seed: { type: 'string', default: '1' },
    in: { type: 'string', default: 'alignment,grading,midi,take,sessions,cli' },
    file: { type: 'string', default: '' },
    longest: { type: 'string', default: 'Infinity' },
    folder: { type: 'string' },
    out: { type: 'string' },
  },
});
const say = (text: string): void => void process.stderr.write(`${text}\n`);

const KNOWN = 'scripts/mutants/known.json';
const known = existsSync(KNOWN) ? (JSON.parse(readFileSync(KNOWN, 'utf8')) as readonly Known[]) : [];
const sources = values.in
  .split(',')
  .flatMap((folder) =>
    readdirSync(join('src', folder), { recursive: true, encoding: 'utf8' }).map((name) =>
      join('src', folder, name),
    ),
  )
  .filter((file) => file.endsWith('.ts'))
  .filter((file) => file.includes(values.file))
  .sort();
const all = sources.flatMap((file) => changesIn(file, readFileSync(file, 'utf8')));
const folder = values.folder ?? mkdtempSync(join(tmpdir(), 'evenhand-mutants-'));
const garden =
  plantedBefore(join(folder, 'copy')) ??
  planted(join(folder, 'copy'), chosenOf(all, Number(values.count), Number(values.seed)));
const chosen = garden.changes;
say(`${chosen.length} of ${all.length} bugs in ${sources.length} files, seed ${values.seed}`);
const { files, failing } = await testFilesOf(garden);
const tests = files.filter(({ ms }) => ms <= 1000 * Number(values.longest));
say(
  `${tests.length} test files of ${files.length} reach them${failing.length > 0 ? `; failing with all off: ${failing.join(', ')}` : ''}`,
);

/** A bug known to change nothing needs no hour of tests. */
const NOT_RUN: Fate = { kind: 'survived', files: 0 };
const fates = fatesIn(join(folder, 'fates.jsonl'));
const tried: Tried[] = [];
for (const [number, change] of chosen.entries()) {
  const why = knownOf(change, known);
  const before = fates.of(number);
  const fate = before ?? (why?.kind === 'same' ? NOT_RUN : await fateOf(garden, number, tests));
  if (before === undefined) fates.keep(number, fate);
  tried.push({ change, fate, ...(why === undefined ? {} : { known: why }) });
  const word = fate.kind === 'caught' ? `caught by ${fate.by}` : fate.kind;
  say(`${number + 1}/${chosen.length} ${change.file}:${change.line} ${change.kind}: ${word}`);
  if (fate.kind === 'survived') say(`    ${change.was}\n    ${change.becomes}`);
}
if (values.folder === undefined) rmSync(folder, { recursive: true, force: true });

const { planted: n, caught, same, survived, share } = countsOf(tried);
const head = `${n} bugs (seed ${values.seed}), ${caught} caught, ${same} that change nothing, ${survived} survived: ${share.toFixed(1)} % of those that change something are caught.`;
const table = tableOf(tried, head);
if (values.out !== undefined) writeFileSync(values.out, table);
process.stdout.write(table);
