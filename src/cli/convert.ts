import { parseArgs } from 'node:util';
import { writeTakeMidi } from '../midi/standard-midi-file';
import { csvOfTake } from '../take/take-csv';
import { writeTake } from '../sessions/take';
import type { Take } from '../sessions/types';
import { takeOf } from './foreign';
import { onBehalfOf, UsageError, writeOut } from './io';

/** `convert FILE OUT [--force]`: a take as `.mid`, `.csv` or `.take.json`, by the ending of OUT. */
export function convert(args: readonly string[]): string {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { force: { type: 'boolean', default: false } },
    allowPositionals: true,
  });
  if (positionals.length !== 2) throw new UsageError('convert wants a take and a file to write');
  const [file, out] = positionals;
  const take = takeOf(file);
  writeOut(
    out,
    onBehalfOf(file, () => written(take, out)),
    values.force,
  );
  return `${out}: ${take.hits.length} hits\n`;
}

function written(take: Take, out: string): string | Uint8Array {
  if (out.endsWith('.take.json')) return writeTake(take);
  if (/\.midi?$/i.test(out)) return writeTakeMidi(take);
  if (out.endsWith('.csv')) return csvOfTake(take);
  throw new UsageError('convert writes .mid, .csv or .take.json');
}
