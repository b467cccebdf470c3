import { InputError } from '../errors';

/**
 * Does `work` and says what the browser says of its storage in words that say what to do.
 * @throws InputError for a failure of the storage; any other error as it came
 */
export async function worded<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    const words = wordsFor(error instanceof Error ? error.name : '');
    throw words === undefined ? error : new InputError('storage', words);
  }
}

/** For a browser window that keeps nothing. */
export const keepsNothing = (): InputError => new InputError('storage', KEEPS_NOTHING);

/** For a database that a page of another version holds on to. */
export const isHeld = (): InputError =>
  new InputError('storage', 'is held by another page of this app: close that one and load this one again');

const KEEPS_NOTHING = 'is not there in this browser window: download a take to keep it';

/** Names of errors as the IndexedDB standard gives them. */
function wordsFor(name: string): string | undefined {
  switch (name) {
    case 'QuotaExceededError':
      return 'has no room left: download your takes, then delete some';
    case 'VersionError':
      return 'was written by a newer page of this app: load this one again';
    case 'InvalidStateError':
      return 'was taken over by a newer page of this app: load this one again';
    case 'SecurityError':
    case 'UnknownError':
      return KEEPS_NOTHING;
    default:
      return undefined;
  }
}
