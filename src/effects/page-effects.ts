import type { Said, Sitting } from '../state/reducer';
import type { BrowserStore } from '../sessions/browser-store';

/** What the parts of the page that touch the world share: the sitting, and a way to say what happened. */
export interface Desk {
  readonly sitting: () => Sitting;
  readonly say: (said: Said) => void;
  /** The browser's store once it is open; before that, and where there is none, one that lasts as long as the page. */
  readonly store: () => BrowserStore;
  /** Bad input becomes the problem line; anything else is a fault of ours and stays an error. */
  readonly trouble: (error: unknown) => void;
  /** Work that may fail, begun from a command. */
  readonly attempt: (work: () => Promise<void>) => void;
}
