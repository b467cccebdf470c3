import { InputError } from '../../errors';
import { shuffled } from '../../exercises/draw';
import { proportionEstimate, type Estimate } from '../numbers/intervals';

/** One bar to be heard. */
export interface BlindBar {
  /** Which take it is from, in the order they were given. */
  readonly take: number;
  readonly bar: number;
  /** What it is: its variation, or whose take it is. */
  readonly answer: string;
}

/** A round of listening: what is heard, in the order drawn, and what was answered so far. Plain data. */
export interface Listening {
  readonly choices: readonly string[];
  readonly bars: readonly BlindBar[];
  readonly answers: readonly string[];
}

/**
 * A round: as many bars of each answer as there are of the rarest (so that guessing is worth 1/k), at most `most` of
 * each, drawn and ordered by a seed.
 * @throws InputError where there are under two answers to choose from
 */
export function listenBlind(bars: readonly BlindBar[], seed: number, most = 5): Listening {
  const choices = [...new Set(bars.map(({ answer }) => answer))];
  if (choices.length < 2)
    throw new InputError('bars', 'must be of two variations or takes at least', choices.length);
  const ofEach = choices.map((choice) => bars.filter(({ answer }) => answer === choice));
  const n = Math.min(most, ...ofEach.map((of) => of.length));
  const drawn = ofEach.flatMap((of, index) => shuffled(of, seed + 1 + index).slice(0, n));
  return { choices, bars: shuffled(drawn, seed), answers: [] };
}

/** The round with the next bar answered; a round that is over stays as it is. */
export function answered(listening: Listening, answer: string): Listening {
  if (listening.answers.length >= listening.bars.length) return listening;
  return { ...listening, answers: [...listening.answers, answer] };
}

/** The bar to be heard now; undefined when the round is over. */
export function nextBlind({ bars, answers }: Listening): BlindBar | undefined {
  return bars[answers.length];
}

export interface BlindScore {
  readonly right: number;
  readonly of: number;
  /** What guessing makes: 1/k. */
  readonly chance: number;
  /** Share right with the exact binomial interval, 90 %; null before the first answer. */
  readonly share: Estimate | null;
  /** True where the interval lies above what guessing makes. */
  readonly heard: boolean;
}

/** Score of what was answered so far. Interval: Clopper & Pearson 1934. */
export function blindScore({ choices, bars, answers }: Listening): BlindScore {
  const right = answers.filter((answer, index) => answer === bars[index].answer).length;
  const share = proportionEstimate(right, answers.length) ?? null;
  const chance = 1 / choices.length;
  return { right, of: answers.length, chance, share, heard: share !== null && share.interval[0] > chance };
}
