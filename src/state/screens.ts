import { screenNames } from '../words/screen-names';

/** In the order of the page's links. */
export const screens = ['today', 'rig', 'phrase', 'play', 'review', 'takes', 'history', 'library'] as const;
export type Screen = (typeof screens)[number];

/** The screen of an address like `…/#play`; undefined where it names none. */
export function screenNamed(name: string): Screen | undefined {
  return screens.find((screen) => screen === name);
}

/** What the window is called. @example windowTitle('play', 'Evenhand') // => Play – Evenhand */
export const windowTitle = (screen: Screen, app: string): string => `${screenNames[screen]} – ${app}`;
