/** In the order of the page's links. */
export const screens = ['today', 'rig', 'phrase', 'play', 'review', 'takes', 'history', 'library'] as const;
export type Screen = (typeof screens)[number];

/** The screen of an address like `…/#play`; undefined where it names none. */
export function screenNamed(name: string): Screen | undefined {
  return screens.find((screen) => screen === name);
}
