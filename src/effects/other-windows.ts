import type { Effects } from '../state/dispatcher';
import type { Context } from './context';

const CHANNEL = 'evenhand-library';
/** What is changed at one go is read anew once; it has to be seen within a second. */
const TOGETHER_MS = 250;

/** The word between windows and tabs of one browser that the library has changed. */
export interface LibraryNews {
  tell(): void;
  /** @param hear called when another window has changed it */
  listen(hear: () => void): void;
}

export function libraryNews(): LibraryNews {
  const channel = new BroadcastChannel(CHANNEL);
  return {
    tell: () => channel.postMessage('changed'),
    listen(hear) {
      channel.onmessage = hear;
    },
  };
}

/**
 * Shows what another window has changed; while a take is played here, when it is over.
 * @param readAgain reads, and changes nothing: else two windows would never come to rest
 */
export function otherWindowsEffects(
  { attempt }: Pick<Context, 'attempt'>,
  news: LibraryNews,
  isPlaying: () => boolean,
  readAgain: () => Promise<unknown>,
) {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let isDue = false;

  function read(): void {
    timer = undefined;
    if (isPlaying()) return;
    isDue = false;
    attempt(async () => void (await readAgain()));
  }

  news.listen(() => {
    isDue = true;
    timer ??= setTimeout(read, TOGETHER_MS);
  });

  const on = {
    ended: () => {
      if (isDue) timer ??= setTimeout(read, TOGETHER_MS);
    },
  } satisfies Effects['on'];
  return { on };
}
