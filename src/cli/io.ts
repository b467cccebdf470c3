import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { InputError } from '../errors';

/** Wrong usage: exit 2. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}

/**
 * The text of a file.
 * @throws InputError naming the file where it cannot be read
 */
export function readText(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    throw new InputError(`${file}:`, `cannot be read (${codeOf(error)})`);
  }
}

/**
 * Writes a new file; an old one only with `force`.
 * @throws InputError naming the file, nothing written
 */
export function writeText(file: string, text: string, force: boolean): void {
  if (!force && existsSync(file)) {
    throw new InputError(`${file}:`, 'is there already; --force overwrites it');
  }
  try {
    writeFileSync(file, text);
  } catch (error) {
    throw new InputError(`${file}:`, `cannot be written (${codeOf(error)})`);
  }
}

/** Runs `read` on a file's behalf: what it throws on purpose names the file. */
export function onBehalfOf<Value>(file: string, read: () => Value): Value {
  try {
    return read();
  } catch (error) {
    throw error instanceof InputError ? new InputError(`${file}: ${error.message}`, '') : error;
  }
}

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : 'unknown reason';
