import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { writeTakeMidi } from '../midi/standard-midi-file';
import { csvOfTake } from '../take/take-csv';
import { writeTake } from '../sessions/take';
import type { Take } from '../sessions/types';
import { takeOf } from './foreign';
import { onBehalfOf } from './io';
import { shownName } from './shown';
import { UsageError } from './usage';
import { writeWhole } from './whole-files';

/** `convert FILE OUT [--force]`: a take as `.mid`, `.csv` or `.take.json`, by the ending of OUT. */
export function convert(args: readonly string[]): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { force: { type: 'boolean', default: false } },
    allowPositionals: true,
  });
  if (positionals.length !== 2) throw new UsageError('convert wants a take and a file to write');
  const [file, out] = positionals;
  if (resolve(file) === resolve(out))
    throw new UsageError(`${shownName(file)} is given twice: what is written needs a name of its own`);
  const take = takeOf(file);
  const content = onBehalfOf(file, () => written(take, out));
  writeWhole([{ file: out, content }], values.force);
  return `${shownName(out)}: ${take.hits.length} hits\n`;
}

function written(take: Take, out: string): string | Uint8Array {
  if (out.endsWith('.take.json')) return writeTake(take);
  if (/\.midi?$/i.test(out)) return writeTakeMidi(take);
  if (out.endsWith('.csv')) return csvOfTake(take);
  throw new UsageError('convert writes .mid, .csv or .take.json');
}
