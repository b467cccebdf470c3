import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { InputError } from '../errors';
import type { Log } from './log';
import { STDIN } from './io';
import { UsageError } from './usage';

const TAKE = /\.(take\.json|midi?)$/i;

/**
 * Files named on a command line: a folder means the takes in it, in the order a person counts (take 2 before take 10).
 * What can't be looked into is bad, and the rest goes on.
 * @throws UsageError for standard input given twice
 */
export function takeFiles(named: readonly string[], log: Log): readonly string[] {
  if (named.filter((name) => name === STDIN).length > 1)
    throw new UsageError('standard input (-) can be read once only');
  return named.flatMap((name) => {
    if (name === STDIN || statSync(name, { throwIfNoEntry: false })?.isDirectory() !== true) return [name];
    const takes = takesIn(name, log);
    if (takes.length === 0) log.bad(new InputError(`${name}:`, 'has no takes (.take.json or .mid)'));
    return takes.map((take) => join(name, take));
  });
}

function takesIn(folder: string, log: Log): readonly string[] {
  try {
    return readdirSync(folder)
      .filter((name) => TAKE.test(name))
      .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  } catch (error) {
    log.bad(new InputError(`${folder}:`, `cannot be read (${error instanceof Error ? error.message : ''})`));
    return [];
  }
}

/** Each file by itself: what one throws on purpose is bad, and the rest goes on. */
export function eachFile<Value>(
  files: readonly string[],
  log: Log,
  read: (file: string) => Value,
): readonly Value[] {
  return files.flatMap((file) => {
    try {
      return [read(file)];
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      log.bad(error);
      return [];
    }
  });
}
