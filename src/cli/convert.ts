import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { InputError } from '../errors';
import { takeFromMidi, writeTakeMidi } from '../midi/standard-midi-file';
import { csvOfTake } from '../take/take-csv';
import { readTake, writeTake } from '../sessions/take';
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
  const content = onBehalfOf(file, () => convertedTake(take, out));
  writeWhole([{ file: out, content }], values.force);
  return `${shownName(out)}: ${take.hits.length} hits\n`;
}

/**
 * A take as the file that OUT's ending asks for; what can be read again is read again before it is called written.
 * @throws InputError where it can't be written so, or does not come back
 */
export function convertedTake(take: Take, out: string): string | Uint8Array {
  if (out.endsWith('.csv')) return csvOfTake(take);
  if (/\.midi?$/i.test(out)) {
    const bytes = writeTakeMidi(take);
    return readBack(take, bytes, () => takeFromMidi(bytes, { fileName: out }));
  }
  if (!out.endsWith('.take.json')) throw new UsageError('convert writes .mid, .csv or .take.json');
  const text = writeTake(take);
  return readBack(take, text, () => readTake(text));
}

function readBack<Content>(take: Take, content: Content, read: () => Take): Content {
  const back = onBehalfOf('what would be written', read);
  if (back.hits.length === take.hits.length && back.phrase.title === take.phrase.title) return content;
  throw new InputError(
    'what would be written:',
    `has ${back.hits.length} hits, and must have ${take.hits.length}`,
  );
}
