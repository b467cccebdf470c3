import type { Phrase } from '../../exercises/types';
import type { Hand } from '../../stroke';
import type { Bpm } from '../../units';
import type { Finding } from '../finding';
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

function attend(reason: Reason, hand: Hand | undefined, { soft, softest }: Telling): string {
  const stick = hand === undefined ? 'the stick' : `the ${word[hand]} stick`;
  switch (reason) {
    case 'slip':
      return 'count aloud, and let every accent fall on its number';
    case 'complete':
      return 'leave nothing out and add nothing';
    case 'scatter':
      return 'let every stroke arrive with the click’s own steps, and breathe';
    case 'leakBefore':
      return `keep ${stick} low until the accent itself`;
    case 'leakAfter':
      return `stop ${stick} low after the accent, and start the next ${soft} from there`;
    case 'spill':
      return `leave ${stick} low while the other hand accents`;
    case 'softRange':
    case 'softSpread':
      return `start every ${softest} from one height`;
    case 'softness':
      return `start every ${softest} from low`;
    case 'ghostContrast':
      return 'start the ghost notes from lower than the taps';
    case 'contrast':
    case 'clarity':
      return `leave the ${soft}s where they are, and start the accents alone from high`;
    case 'fade':
      return 'strike the second note of each double from where the first began';
    case 'doubleGap':
      return 'give the second note of each double its own time';
    case 'balanceSoft':
      return 'bring the louder hand down to the softer one';
    case 'balanceAccent':
      return 'start both hands’ accents from one height';
    case 'lag':
      return 'listen for each hand half-way between two strokes of the other';
    case 'seam':
      return 'hear the next bar’s first stroke before it comes, and don’t hurry to it';
    case 'arrival':
      return 'say the count aloud through the bar before and this one, and let its first stroke fall on its number';
    case 'feel':
      return 'let the click sound the off-beats, and strike with it';
    case 'graceHands':
      return 'copy the flam of one hand with the other, first in a row of each, then in turn';
    case 'graceEvenness':
    case 'flamGap':
    case 'dragGap':
      return 'let the grace notes fall just ahead, the same each time';
    case 'graceSoftness':
      return 'start the grace note from low and its stroke from high';
    case 'accentSpread':
      return 'start every accent from one height';
  }
}

/** What the remedy is for. */
export function purposeOf(reason: Reason, hand: Hand | undefined, { soft, softest }: Telling): string {
  const whose = hand === undefined ? '' : ` of the ${word[hand]}`;
  switch (reason) {
    case 'slip':
      return 'so that the order of strokes is sure before the tempo is';
    case 'complete':
      return 'so that every stroke that is due is there, and none that isn’t';
    case 'scatter':
      return 'so that the same place comes at the same time each round';
    case 'leakBefore':
      return `so that the ${soft}${whose} before an accent is as soft as the rest`;
    case 'leakAfter':
      return `so that the ${soft}${whose} after an accent is as soft as the rest`;
    case 'spill':
      return `so that a ${soft}${whose} stays soft beside the other hand’s accent`;
    case 'softRange':
    case 'softSpread':
      return `so that all ${softest}s are alike`;
    case 'softness':
      return `so that the ${softest}s are soft enough`;
    case 'ghostContrast':
      return 'so that taps and ghost notes are two things';
    case 'contrast':
    case 'clarity':
      return `so that the accents stand clear of the ${soft}s`;
    case 'fade':
      return 'so that both notes of a double are alike';
    case 'doubleGap':
      return 'so that doubles are as wide as the other strokes';
    case 'balanceSoft':
      return `so that both hands’ ${soft}s are alike`;
    case 'balanceAccent':
      return 'so that both hands’ accents are alike';
    case 'lag':
      return 'so that both hands keep the same time';
    case 'seam':
      return 'so that nothing tells where one variation gives way to the next';
    case 'arrival':
      return 'so that no bar is told from the others by when it comes';
    case 'feel':
      return 'so that the off-beats lie where the phrase has them';
    case 'graceHands':
    case 'graceEvenness':
    case 'flamGap':
    case 'dragGap':
    case 'graceSoftness':
      return 'so that grace note and stroke sound as one figure each time';
    case 'accentSpread':
      return 'so that all accents are alike';
  }
}
