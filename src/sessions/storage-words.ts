import { InputError } from '../errors';

/**
 * Does `work` and says what the browser says of its storage in words that say what to do.
 * @throws InputError for a failure of the storage; any other error as it came
 */
export async function worded<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    const words = wordsFor(nameOf(error));
    throw words === undefined ? error : new InputError('storage', words);
  }
}

/** Whether a work failed because the database was cut off under it: opened anew, it may be done once more. */
export function isCutOff(error: unknown): boolean {
  // What a transaction cannot be begun on, and one that ended without a reason of its own.
  return nameOf(error) === 'InvalidStateError' || nameOf(error) === 'AbortError';
}

/** For a browser window that keeps nothing. */
export const keepsNothing = (): InputError => new InputError('storage', KEEPS_NOTHING);

/** For a database that a page of another version holds on to. */
export const isHeld = (): InputError =>
  new InputError('storage', 'is held by another page of this app: close that one and load this one again');

/** For a database that an update of another page, or damage, left without some of its parts. */
export const isHalfMade = (missing: readonly string[]): InputError =>
  new InputError(
    'storage',
    `is damaged, its ${missing.join(', ')} ${missing.length === 1 ? 'is' : 'are'} missing: delete this site’s data in the browser’s settings, load this page again, then bring your backup back`,
  );

/** For a database that this page has closed itself. */
export const isClosed = (): InputError => new InputError('storage', CLOSED);

/**
 * Why a database did not open; an error that is none of the browser's as it came.
 * @param wasOpen whether this page has had it open before
 */
export function openingFailed(error: unknown, wasOpen: boolean): unknown {
  const name = nameOf(error);
  const words = (wasOpen ? undefined : AT_FIRST[name]) ?? wordsFor(name);
  return words === undefined ? error : new InputError('storage', words);
}

const KEEPS_NOTHING = 'is not there in this browser window: download a take to keep it';
const CLOSED = 'was closed by the browser and does not open again';
const NO_SPACE = 'has no room left: download your takes, then delete some';
const NEWER =
  'was taken over by a newer page of this app: download what is not kept, then load this one again';
const FAILED =
  'could not be used: the browser says no more of it than that the disk may be full or damaged. Make room on it, or start the browser anew';

/** Names of errors as the IndexedDB standard gives them: what they mean of a database that this page never had open. */
const AT_FIRST: Readonly<Record<string, string>> = {
  VersionError: 'was written by a newer page of this app: load this one again',
  SecurityError: KEEPS_NOTHING,
  InvalidStateError: KEEPS_NOTHING,
};

/** The same, of a database in use. */
function wordsFor(name: string): string | undefined {
  switch (name) {
    case 'QuotaExceededError':
      return NO_SPACE;
    case 'VersionError':
      return NEWER;
    case 'InvalidStateError':
    case 'AbortError':
      return CLOSED;
    case 'SecurityError':
      return KEEPS_NOTHING;
    case 'UnknownError':
    case 'NotReadableError':
    case 'TimeoutError':
      return FAILED;
    default:
      return undefined;
  }
}

const nameOf = (error: unknown): string => (error instanceof Error ? error.name : '');
