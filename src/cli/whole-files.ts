import {
  chmodSync,
  closeSync,
  copyFileSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { InputError } from '../errors';
import { shownName } from './shown';
import { UsageError } from './usage';

/** A file to write. */
interface OutFile {
  readonly file: string;
  readonly content: string | Uint8Array;
}

/** Signals that end a command at once; while files are put in their places they wait. */
const ENDING = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/**
 * Writes files whole or not at all, and all of them or none. Each is written beside its place under another name, flushed
 * and read back; only when all are there do they take their places, and what stood there before is put back where one of
 * them can't. A signal meanwhile waits until then: what is left behind is what was there, or the new files.
 * @throws UsageError for one path given twice, InputError naming the file that is there already or can't be written
 */
export function writeWhole(outs: readonly OutFile[], force: boolean): void {
  const wanted = outs.map((out) => ({ ...out, place: placeOf(out.file) }));
  wanted.forEach(({ file, place }, index) => {
    if (wanted.findIndex((other) => other.place === place) < index)
      throw new UsageError(`${shownName(file)} is given twice, and one file would overwrite the other`);
  });
  for (const { file, place } of wanted) refuseTaken(file, place, force);
  const waits = (): void => undefined;
  for (const signal of ENDING) process.on(signal, waits);
  const parts: Part[] = [];
  try {
    for (const out of wanted) parts.push(laidBeside(out));
    putInPlace(parts, force);
  } finally {
    for (const { part } of parts) rmSync(part, { force: true });
    for (const signal of ENDING) process.off(signal, waits);
  }
}

interface Part {
  readonly file: string;
  readonly place: string;
  /** Where the new content lies until all are there. */
  readonly part: string;
}

/** Where a path leads: through links, so that a link stays one. */
function placeOf(file: string): string {
  const path = resolve(file);
  try {
    return realpathSync(path);
  } catch {
    try {
      return join(realpathSync(dirname(path)), basename(path));
    } catch (error) {
      throw cannotBeWritten(file, error);
    }
  }
}

function refuseTaken(file: string, place: string, force: boolean): void {
  const there = lstatSync(place, { throwIfNoEntry: false });
  if (there === undefined) return;
  if (!there.isFile()) throw new InputError(`${file}:`, 'is no file that could be overwritten');
  if (!force) throw isThere(file);
}

function laidBeside({ file, place, content }: OutFile & { readonly place: string }): Part {
  const part = beside(place, 'part');
  let descriptor: number | undefined;
  try {
    descriptor = openSync(part, 'wx');
    writeFileSync(descriptor, content);
    fsyncSync(descriptor);
    const old = lstatSync(place, { throwIfNoEntry: false });
    if (old !== undefined) chmodSync(part, old.mode);
    if (!readFileSync(part).equals(Buffer.from(content))) {
      throw new InputError(`${file}:`, 'cannot be written (what was written reads back otherwise)');
    }
    return { file, place, part };
  } catch (error) {
    rmSync(part, { force: true });
    throw error instanceof InputError ? error : cannotBeWritten(file, error);
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

/** Every part to its place; where one can't, those before it are taken back. */
function putInPlace(parts: readonly Part[], force: boolean): void {
  const undone: (() => void)[] = [];
  const kept: string[] = [];
  try {
    for (const { file, place, part } of parts) {
      try {
        if (force && lstatSync(place, { throwIfNoEntry: false }) !== undefined) {
          // A single file needs nothing set aside: a rename by itself is whole.
          if (parts.length > 1) {
            const old = beside(place, 'old');
            kept.push(old);
            moveAway(place, old);
            undone.push(() => {
              renameSync(old, place);
            });
          }
          renameSync(part, place);
        } else {
          takeFreePlace(part, place);
          undone.push(() => {
            rmSync(place, { force: true });
          });
        }
      } catch (error) {
        throw codeOf(error) === 'EEXIST' ? isThere(file) : cannotBeWritten(file, error);
      }
    }
    for (const folder of new Set(parts.map(({ place }) => dirname(place)))) flushFolder(folder);
  } catch (error) {
    for (const undo of undone.reverse()) undo();
    throw error;
  } finally {
    for (const old of kept) rmSync(old, { force: true });
  }
}

/** A new name for the part, only where nothing has that name: also where it came there a moment ago. */
function takeFreePlace(part: string, place: string): void {
  try {
    linkSync(part, place);
  } catch (error) {
    if (codeOf(error) === 'EEXIST') throw error;
    // A disk without links (a stick, a share): an empty file holds the name until the part takes it.
    closeSync(openSync(place, 'wx'));
    try {
      renameSync(part, place);
    } catch (failed) {
      rmSync(place, { force: true });
      throw failed;
    }
  }
}

function moveAway(place: string, old: string): void {
  try {
    linkSync(place, old);
  } catch {
    copyFileSync(place, old);
  }
}

/** The names themselves, too, outlast a power cut; not every system lets a folder be flushed. */
function flushFolder(folder: string): void {
  try {
    const descriptor = openSync(folder, 'r');
    try {
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
  } catch {
    return;
  }
}

let besides = 0;

/** A hidden name beside a file that no other process and no other file of this one has. */
function beside(place: string, ending: 'part' | 'old'): string {
  besides += 1;
  const path = join(dirname(place), `.evenhand-${process.pid}-${besides}.${ending}`);
  // Of a process that had the same number and was killed.
  rmSync(path, { force: true });
  return path;
}

const isThere = (file: string): InputError =>
  new InputError(`${file}:`, 'is there already; --force overwrites it');

const cannotBeWritten = (file: string, error: unknown): InputError =>
  new InputError(`${file}:`, `cannot be written (${reasonOf(error)})`);

function codeOf(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error ? String(error.code) : undefined;
}

/** What a person can do something about, in words. */
const REASONS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'no room is left of what you may use',
  EFBIG: 'the file would be larger than it may be',
  ENOENT: 'there is no such folder',
  ENOTDIR: 'there is no such folder',
  EACCES: 'not allowed',
  EPERM: 'not allowed',
  EROFS: 'the disk can only be read',
};

const reasonOf = (error: unknown): string => {
  const code = codeOf(error) ?? 'unknown reason';
  return Object.hasOwn(REASONS, code) ? `${REASONS[code]}, ${code}` : code;
};
