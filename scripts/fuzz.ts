import { join } from 'node:path';
import { tmpdir } from 'node:os';
import { parseArgs } from 'node:util';
import { emptied, fuzzed } from '../tests/cli/fuzz/fuzz';

/**
 * `npm run fuzz [-- --cases N] [--seed N]`: that many damaged files of every format through the command line as a process.
 * What breaks a promise is told, and its file stays in the folder that is named. 2,000 cases are part of `npm test`.
 */
const { values } = parseArgs({
  options: { cases: { type: 'string', default: '20000' }, seed: { type: 'string', default: '1' } },
});
const folder = emptied(join(tmpdir(), 'evenhand-fuzz'));
const { cases, refused, processes, slowestMs, mostMemoryMb, broken } = fuzzed(
  Number(values.cases),
  Number(values.seed),
  folder,
);
process.stdout.write(
  `${cases} files, ${refused} refused, ${processes} processes; slowest ${slowestMs.toFixed(0)} ms, most memory ${mostMemoryMb.toFixed(0)} MB\n`,
);
for (const one of broken) process.stdout.write(`${one}\n`);
if (broken.length > 0)
  process.stdout.write(`${broken.length} promises broken; their files are in ${folder}\n`);
process.exitCode = broken.length > 0 ? 1 : 0;
