import type { NotTold } from './apartness';
import type { Giveaway } from './giveaway';
import type { Identification } from './identification';
import type { BlindScore } from './listen-blind';
import { count, dB, fixed, ms, ordinal, percent } from '../../words/numbers';

/** What tells a variation from those it is meant to sound like, in a sentence. */
export function giveawayWords(found: Giveaway | NotTold): string {
  if (found.kind === 'not told') return notToldWords[found.because];
  const few = found.couldMiss ? ` ${fewWords(found.cycles)}` : '';
  if (found.gives) {
    return `What gives ${found.variation} away is its ${ordinal(found.slot + 1)} stroke, ${farWords(found)} than there in the others.${few}`;
  }
  const most = `${found.variation} differs most, at its ${ordinal(found.slot + 1)} stroke, ${farWords(found)}`;
  if (found.p < SELDOM) return `Nothing gives a variation away: ${most}, too little to hear.${few}`;
  return `Nothing in this take gives a variation away: ${most}, and chance makes as much.${few}`;
}

/** Under it chance is called unlikely. */
const SELDOM = 0.05;

/** How often a bar's variation can be told by numbers alone. */
export function identificationWords(found: Identification | NotTold): string {
  if (found.kind === 'not told') return notToldWords[found.because];
  const few = found.couldMiss ? ` ${fewWords(found.cycles)}` : '';
  const rate = `${percent(100 * found.rate)} of the bars can be told by their levels and times; guessing makes ${percent(100 * found.chance)}`;
  const verdict = found.p < SELDOM ? 'more than chance makes' : 'no more than chance makes';
  return `${rate}, so that is ${verdict} (p ${fixed(found.p, 3)}).${few}`;
}

/** As in: 7 of 10 heard right (guessing makes 25 %; 90 % interval 39 to 91 %): they can be told by ear. */
export function blindWords({ right, of, chance, share, heard }: BlindScore): string {
  if (share === null) return 'Nothing heard yet.';
  const [low, high] = share.interval;
  const interval = `guessing makes ${percent(100 * chance)}; 90 % interval ${fixed(100 * low, 0)} to ${percent(100 * high)}`;
  return `${right} of ${of} heard right (${interval}): ${heard ? 'they can be told by ear' : 'so far no more than guessing may make'}.`;
}

function farWords({ dimension, difference: { value } }: Giveaway): string {
  const size = Math.abs(value);
  if (dimension === 'level') return `${dB(size)} ${value < 0 ? 'softer' : 'louder'}`;
  return `${ms(size)} ${value < 0 ? 'earlier' : 'later'}`;
}

const fewWords = (cycles: number): string => `From ${count(cycles, 'cycle')} only: something may be missed.`;

const notToldWords: Readonly<Record<NotTold['because'], string>> = {
  'does not fit': 'The take does not fit its grid, so its variations are not held against each other.',
  'none alike': 'No two variations here are meant to sound alike, so none can give itself away.',
  'too few cycles': 'Play four cycles at least; then it can be said what gives a variation away.',
};
