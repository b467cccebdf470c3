import type { Phrase } from '../../exercises/types';
import type { Hand } from '../../stroke';
import type { Bpm } from '../../units';
import type { Finding } from '../finding';
import { judgedWords } from '../../words/measures';
import type { JudgedKey } from '../measures';
import type { Telling } from '../reasons';
import type { RemedyRule } from './rules';
import type { Reason } from './table';

const word: Readonly<Record<Hand, string>> = { R: 'right', L: 'left' };

/**
 * What to play, as an order a teacher would give, with what to attend to. Grip-neutral; hands only as due.
 * @param made the remedy's phrase
 */
export function remedyWords(
  rule: RemedyRule,
  { reason, bar, hand, isWhole }: Finding,
  best: string,
  bpm: Bpm,
  telling: Telling,
  made: Phrase,
): string {
  const hasNeighbours = made.bars.some(({ variation }) => variation !== bar);
  const hasUnisons = made.bars.some(({ sticking }) => sticking.includes('['));
  const what = isWhole
    ? wholeToPlay(rule, hand)
    : rule === 'slower' && !hasNeighbours
      ? `${bar} slower,`
      : whatToPlay(rule, bar, best, hand);
  const listenFor =
    reason === 'lag' && hasUnisons
      ? 'where both sticks strike together, let them be heard as one'
      : attend(reason, hand, telling);
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

function wholeToPlay(rule: RemedyRule, hand: Hand | undefined): string {
  switch (rule) {
    case 'accents off':
      return 'the whole phrase with the accents off';
    case 'accenting hand alone':
      return hand === undefined
        ? 'the whole phrase with the right hand alone, with the left hand alone, then with both'
        : `the ${word[hand]} hand of the whole phrase alone, then with both hands`;
    case 'other hand resting':
      return `the whole phrase with the ${hand === undefined ? 'other hand' : word[hand]} resting in the beats the other hand accents, then whole`;
    case 'that bar alone':
      return 'one bar without accents, then the whole phrase as written,';
    case 'slower':
      return 'the whole phrase slower,';
    case 'in turn':
      return 'the whole phrase';
  }
}

function attend(reason: Reason, hand: Hand | undefined, telling: Telling): string {
  return reason === 'slip'
    ? 'count aloud, and let every accent fall on its number'
    : judgedWords[reason].attend(practised(hand, telling));
}

/** What the remedy is for. */
export function purposeOf(reason: Reason, hand: Hand | undefined, telling: Telling): string {
  return reason === 'slip'
    ? 'so that the order of strokes is sure before the tempo is'
    : judgedWords[reason].purpose(practised(hand, telling));
}

function practised(
  hand: Hand | undefined,
  { soft, softest }: Telling,
): Parameters<(typeof judgedWords)[JudgedKey]['attend']>[0] {
  return { soft, softest, ...(hand === undefined ? {} : { hand }) };
}
