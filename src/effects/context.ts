import type { BrowserStore } from '../sessions/browser-store';
import type { Action } from '../state/actions';
import type { State } from '../state/state';

/** What the effects of all areas share. */
export interface Context {
  /** The state as it is just now: for the work of one action. What a stream needs is handed to it when it is made. */
  readonly state: () => State;
  readonly dispatch: (action: Action) => void;
  /** The browser's store once it is open; before that, and where there is none, one that lasts as long as the page. */
  readonly store: () => BrowserStore;
  /** Bad input becomes the problem line; anything else is a fault of ours and stays an error. */
  readonly trouble: (error: unknown) => void;
  /** Work that may fail, begun by an action. */
  readonly attempt: (work: () => Promise<void>) => void;
}
