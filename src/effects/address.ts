import type { Effects } from '../state/dispatcher';
import { screenNamed } from '../state/screens';
import type { Context } from './context';

/** Keeps the page's address in step with its screen, so that Back and a kept link go where a player expects. */
export function addressEffects({ state, dispatch }: Context) {
  let shown = state().screen;
  history.replaceState(null, '', `#${shown}`);
  window.addEventListener('popstate', () => {
    const asked = screenNamed(location.hash.slice(1));
    if (asked === undefined || asked === shown) return;
    shown = asked;
    dispatch({ kind: 'go', screen: asked });
  });
  return {
    changed({ screen }) {
      if (screen === shown) return;
      shown = screen;
      history.pushState(null, '', `#${screen}`);
    },
  } satisfies Effects;
}
