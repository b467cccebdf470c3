import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { InputError } from '../errors';

/** What stands for standard input where a file is wanted. */
export const STDIN = '-';
const STDIN_DESCRIPTOR = 0;
/** A library of ten years is a quarter of it; a device that never ends is no file. */
const MOST_BYTES = 512 * 1024 * 1024;
const CHUNK_BYTES = 1024 * 1024;
/** Until standard input has something to read. */
const WAIT_MS = 5;

/**
 * The bytes of a file, or of standard input for `-`.
 * @throws InputError naming the file where it cannot be read, or is larger than any of ours
 */
export function readBytes(file: string): Uint8Array {
  let descriptor: number | undefined;
  try {
    descriptor = file === STDIN ? STDIN_DESCRIPTOR : openSync(file, 'r');
    if (fstatSync(descriptor).isDirectory()) throw new InputError(`${file}:`, 'cannot be read (EISDIR)');
    return allOf(descriptor, file);
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(`${file}:`, `cannot be read (${codeOf(error)})`);
  } finally {
    if (descriptor !== undefined && descriptor !== STDIN_DESCRIPTOR) closeSync(descriptor);
  }
}

function allOf(descriptor: number, file: string): Uint8Array {
  const chunks: Buffer[] = [];
  let length = 0;
  for (;;) {
    const chunk = Buffer.allocUnsafe(CHUNK_BYTES);
    const read = readOnce(descriptor, chunk);
    if (read === 0) return Buffer.concat(chunks, length);
    chunks.push(chunk.subarray(0, read));
    length += read;
    if (length > MOST_BYTES) throw new InputError(`${file}:`, 'must be under 512 MB');
  }
}

/** Bytes read; waits where a pipe has nothing yet. */
function readOnce(descriptor: number, chunk: Buffer): number {
  for (;;) {
    try {
      return readSync(descriptor, chunk, 0, chunk.length, null);
    } catch (error) {
      if (codeOf(error) === 'EOF') return 0;
      if (codeOf(error) !== 'EAGAIN') throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, WAIT_MS);
    }
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
