import type { Effects } from '../state/dispatcher';
import { screenNamed, windowTitle, type Screen } from '../state/screens';
import type { Context } from './context';

/** Keeps the page's address and title in step with its screen, so that Back and a kept link go where a player expects. */
export function addressEffects({ state, dispatch }: Context) {
  const app = document.title;
  let shown = state().screen;
  history.replaceState(null, '', `#${shown}`);
  const show = (screen: Screen): void => {
    shown = screen;
    document.title = windowTitle(screen, app);
  };
  show(shown);
  window.addEventListener('popstate', () => {
    const asked = screenNamed(location.hash.slice(1));
    if (asked === undefined || asked === shown) return;
    show(asked);
    dispatch({ kind: 'go', screen: asked });
  });
  return {
    changed({ screen }) {
      if (screen === shown) return;
      show(screen);
      history.pushState(null, '', `#${screen}`);
    },
  } satisfies Effects;
}
