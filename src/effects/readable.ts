import { InputError } from '../errors';
import type { BrowserStore } from '../sessions/browser-store';
import type { Take } from '../sessions/types';

/** A take that is kept; undefined also for one that is unsound: it is set aside, and the others are still to be had. */
export async function readableTake(store: BrowserStore, id: string): Promise<Take | undefined> {
  try {
    return await store.get(id);
  } catch (error) {
    if (error instanceof InputError && error.place !== 'storage') return undefined;
    throw error;
  }
}
