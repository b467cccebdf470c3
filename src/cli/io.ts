import { readFileSync } from 'node:fs';
import { InputError } from '../errors';

/**
 * The bytes of a file.
 * @throws InputError naming the file where it cannot be read
 */
export function readBytes(file: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch (error) {
    throw new InputError(`${file}:`, `cannot be read (${codeOf(error)})`);
  }
}

/** The text of a file, as UTF-8. */
export function readText(file: string): string {
  return new TextDecoder().decode(readBytes(file));
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

/**
 * A whole number as an option has it.
 * @throws InputError naming the option
 */
export function wholeNumber(place: string, text: string, least: number, most: number): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < least || value > most || text.trim() === '') {
    throw new InputError(place, `must be an integer ${least}–${most}`, text);
  }
  return value;
}
