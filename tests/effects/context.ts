import type { Context } from '../../src/effects/context';
import type { BrowserStore } from '../../src/sessions/browser-store';
import { dispatcher, type Dispatcher } from '../../src/state/dispatcher';
import type { State } from '../../src/state/state';

/** A page without a browser: what its effects share, and the works they have begun. */
export function contextFrom(
  first: State,
  store: () => BrowserStore,
): Context & Pick<Dispatcher, 'listen'> & { readonly works: readonly Promise<void>[] } {
  const works: Promise<void>[] = [];
  return {
    ...dispatcher(first),
    store,
    works,
    trouble: (error) => {
      throw error;
    },
    attempt: (work) => works.push(work()),
  };
}
