import { playingNow } from '../sessions/playing-lock';
import type { Effects } from '../state/dispatcher';
import { wouldLose } from '../state/unkept';
import type { Context } from './context';

/** How long a new version is looked for anew, where a page stays open for days. */
const LOOK_AGAIN_MS = 3_600_000;

/**
 * Lets the browser keep the whole page, so that it opens with the network off. A newer version waits until the player
 * asks for it, and longer while any tab plays a take.
 */
export function offlineEffects({ state, dispatch, attempt, trouble }: Context, isPlaying: () => boolean) {
  const workers = (navigator as Partial<Navigator>).serviceWorker;
  let registration: ServiceWorkerRegistration | undefined;
  let asked = false;

  const look = (): void => {
    // On the first visit there is nothing older that would have to give way.
    if (registration?.waiting && workers?.controller)
      dispatch({ kind: 'library', change: { update: 'waiting' } });
  };

  async function register(on: ServiceWorkerContainer): Promise<void> {
    registration = await on.register(new URL('sw.js', document.baseURI), { updateViaCache: 'none' });
    look();
    registration.addEventListener('updatefound', () => {
      registration?.installing?.addEventListener('statechange', look);
    });
    setInterval(() => {
      if (!isPlaying()) registration?.update().catch(() => undefined);
    }, LOOK_AGAIN_MS);
  }

  async function load(): Promise<void> {
    const locks = (navigator as Partial<Navigator>).locks;
    const playing = await playingNow(locks).catch(trouble);
    if (isPlaying() || (playing !== undefined && playing.size > 0)) {
      dispatch({
        kind: 'message',
        message: 'A take is being played: the newer version waits until it is over.',
      });
      return;
    }
    if (wouldLose(state())) {
      dispatch({
        kind: 'message',
        message: 'A take is not kept yet: download it first, then load the newer version.',
      });
      return;
    }
    asked = true;
    registration?.waiting?.postMessage('take over');
  }

  if (import.meta.env.PROD && workers !== undefined) {
    workers.addEventListener('controllerchange', () => {
      if (asked) location.reload();
    });
    // No network, or a browser that keeps nothing: the page works all the same, only not offline.
    register(workers).catch(() => undefined);
  }

  const on = {
    'load update': () => attempt(load),
  } satisfies Effects['on'];
  return { on };
}
