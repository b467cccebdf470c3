import type { Phrase } from '../../exercises/types';
import type { Hand } from '../../stroke';
import type { Bpm } from '../../units';
import type { Finding } from '../finding';
import { listed } from '../../text';
import { judgedWords, type Practised } from '../../words/measures';
import type { RemedyRule } from './rules';
import type { Reason } from './table';

const word: Readonly<Record<Hand, string>> = { R: 'right', L: 'left' };

/** What a remedy is said from. */
interface ToPlay {
  readonly rule: RemedyRule;
  readonly finding: Finding;
  /** Name of the best variation. */
  readonly best: string;
  readonly bpm: Bpm;
  /** The remedy's phrase. */
  readonly made: Phrase;
  readonly practised: Practised;
}

/** What to play, as an order a teacher would give, with what to attend to. Grip-neutral; hands only as due. */
export function remedyWords({ rule, finding, best, bpm, made, practised }: ToPlay): string {
  const { reason, bar, hand, variations } = finding;
  const hasNeighbours = made.bars.some(({ variation }) => variation !== bar);
  const hasUnisons = made.bars.some(({ sticking }) => sticking.includes('['));
  const what =
    variations.length !== 1
      ? severalToPlay(rule, variations.length === 0 ? 'the whole phrase' : listed(variations), hand)
      : rule === 'slower' && !hasNeighbours
        ? `${bar} slower,`
        : whatToPlay(rule, bar, best, hand);
  const listenFor =
    reason === 'lag' && hasUnisons
      ? 'where both sticks strike together, let them be heard as one'
      : attend(reason, practised);
  return `Play ${what} at ${bpm} bpm: ${listenFor}.`;
}

function whatToPlay(rule: RemedyRule, bar: string, best: string, hand: Hand | undefined): string {
  switch (rule) {
    case 'accents off':
      return `${bar} with the accents off`;
    case 'that bar alone':
      return `${bar} by itself, one bar without accents, then three as written`;
    case 'accenting hand alone':
      return hand === undefined
        ? `${bar} with the right hand alone, with the left hand alone, then with both`
        : `the ${word[hand]} hand of ${bar} alone, first without accents, then with both hands`;
    case 'other hand resting':
      return `${bar} without accents, then with the ${hand === undefined ? 'other hand' : word[hand]} resting in the beats the other hand accents, then whole`;
    case 'slower':
      return `${bar} between its neighbours`;
    case 'in turn':
      return best === bar ? `${bar} round and round` : `${best} and ${bar} in turn, a bar of each`;
  }
}

function severalToPlay(rule: RemedyRule, what: string, hand: Hand | undefined): string {
  switch (rule) {
    case 'accents off':
      return `${what} with the accents off`;
    case 'accenting hand alone':
      return hand === undefined
        ? `${what} with the right hand alone, with the left hand alone, then with both`
        : `the ${word[hand]} hand of ${what} alone, then with both hands`;
    case 'other hand resting':
      return `${what} with the ${hand === undefined ? 'other hand' : word[hand]} resting in the beats the other hand accents, then whole`;
    case 'that bar alone':
      return `one bar without accents, then ${what} as written,`;
    case 'slower':
      return `${what} slower,`;
    case 'in turn':
      return what;
  }
}

function attend(reason: Reason, practised: Practised): string {
  return reason === 'slip'
    ? 'count aloud, and let every accent fall on its number'
    : judgedWords[reason].attend(practised);
}

/** What the remedy is for. */
export function purposeOf(reason: Reason, practised: Practised): string {
  return reason === 'slip'
    ? 'so that the order of strokes is sure before the tempo is'
    : judgedWords[reason].purpose(practised);
}
