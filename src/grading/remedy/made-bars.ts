import type { Hand } from '../../stroke';

/** What a remedy may make of a bar. */
export type Making = 'accents off' | `${HandWord} hand alone` | `${HandWord | 'other hand'} resting`;
type HandWord = 'right' | 'left';

const makings: readonly Making[] = [
  'accents off',
  'right hand alone',
  'left hand alone',
  'right resting',
  'left resting',
  'other hand resting',
];

const word: Readonly<Record<Hand, HandWord>> = { R: 'right', L: 'left' };

export const alone = (hand: Hand): Making => `${word[hand]} hand alone`;
export const resting = (hand: Hand | undefined): Making =>
  `${hand === undefined ? 'other hand' : word[hand]} resting`;

/** @example madeName('accent on 4', 'accents off') // => accent on 4, accents off */
export const madeName = (variation: string, making: Making): string => `${variation}, ${making}`;

/** True where a bar of that name is one that a remedy made of the variation. */
export const isMadeFrom = (name: string, variation: string): boolean =>
  makings.some((making) => name === madeName(variation, making));
