import { screenNamed, type Screen } from '../state/reducer';
import type { Desk } from './page-effects';

/** Keeps the page's address in step with its screen, so that Back and a kept link go where a player expects. */
export interface Address {
  /** To be called when something was said. */
  changed(): void;
}

/** @param go asked for by Back, Forward or an address typed in */
export function addressDesk({ sitting }: Pick<Desk, 'sitting'>, go: (screen: Screen) => void): Address {
  let shown = sitting().screen;
  history.replaceState(null, '', `#${shown}`);
  window.addEventListener('popstate', () => {
    const asked = screenNamed(location.hash.slice(1));
    if (asked === undefined || asked === sitting().screen) return;
    shown = asked;
    go(asked);
  });
  return {
    changed() {
      const { screen } = sitting();
      if (screen === shown) return;
      shown = screen;
      history.pushState(null, '', `#${screen}`);
    },
  };
}
