import index from '../../recorded-sessions/index.json';
import { InputError } from '../errors';
import type { BundledTake } from '../state/takes';
import { readTake } from '../sessions/take';
import type { Take } from '../sessions/types';

/** Where the build put each recorded session; a file is fetched when it is asked for. */
const addresses = import.meta.glob<string>('../../recorded-sessions/*.take.json', {
  eager: true,
  query: '?url',
  import: 'default',
});

/** The model player's takes that come with the app, by name; none of them fetched yet. */
export const bundledTakes: readonly BundledTake[] = index.map((entry) => ({ ...entry, take: null }));

/**
 * Fetches one.
 * @throws InputError where it is not to be had
 */
export async function fetchBundled(name: string): Promise<Take> {
  const address = addresses[`../../recorded-sessions/${name}.take.json`];
  try {
    const answer = await fetch(address);
    if (!answer.ok) throw new Error(answer.statusText);
    return readTake(await answer.text());
  } catch (error) {
    if (error instanceof InputError) throw error.within(name);
    throw new InputError(name, 'could not be fetched: the app’s own files are not to be had just now');
  }
}
