import { count, fixed, signed } from '../../grading/number-words';
import type { Followed } from './series';
import type { Trend } from './trend';

/** What is followed, as it begins a sentence. */
export const followedWords: Readonly<Record<Followed, string>> = {
  ceiling: 'Ceiling tempo',
  margin: 'Weakest margin',
  contrast: 'Contrast',
  balance: 'Balance of soft strokes',
};

/**
 * A figure as History writes it, with its unit. A margin has none: 0 is the *holds* limit, 1 the ideal.
 * @example figureWords('balance', -1.24) // => left louder by 1.2 dB
 * @example figureWords('margin', 0.25) // => +0.25
 */
export function figureWords(what: Followed, value: number): string {
  switch (what) {
    case 'ceiling':
      return `${fixed(value, 0)} bpm`;
    case 'margin':
      return signed(value, 2);
    case 'contrast':
      return `${fixed(value, 1)} dB`;
    case 'balance':
      if (fixed(Math.abs(value), 1) === '0.0') return 'even';
      return `${value > 0 ? 'right' : 'left'} louder by ${fixed(Math.abs(value), 1)} dB`;
  }
}

const VERBS = { up: 'rose', down: 'fell' } as const;

/**
 * The finding as a sentence: what it was, what it is, how much a week and how sure; or that nothing changed beyond noise.
 * @param of the variation it is of; empty for the phrase
 * @param kind which takes it is told by, where both kinds were played
 */
export function trendWords(what: Followed, trend: Trend, of = '', kind: '' | 'warm' | 'cold' = ''): string {
  const name = `${followedWords[what]}${of === '' ? '' : ` of ${of}`}${kind === '' ? '' : `, ${kind} takes`}`;
  if (trend.kind === 'too few') {
    return `${name}: four days of takes, over a week or more, tell a change; there ${trend.points === 1 ? 'is' : 'are'} ${count(trend.points, 'day')} yet`;
  }
  const { change, days, from, to, perWeek, interval } = trend;
  const time = timeWords(days[1] - days[0]);
  const unit = what === 'ceiling' ? ' bpm' : what === 'margin' ? '' : ' dB';
  const places = what === 'margin' ? 2 : 1;
  const each = `${signed(perWeek, places)}${unit} a week, 90 % from ${signed(interval[0], places)} to ${signed(interval[1], places)}`;
  if (change === 'none') {
    return `${name}: no change beyond noise in ${time}, about ${figureWords(what, (from + to) / 2)} (${each})`;
  }
  const verb = what === 'balance' ? 'went' : VERBS[change];
  return `${name} ${verb} from ${figureWords(what, from)} to ${figureWords(what, to)} in ${time} (${each})`;
}

function timeWords(days: number): string {
  const weeks = Math.round(days / 7);
  return weeks < 2 ? `${count(Math.round(days), 'day')}` : count(weeks, 'week');
}
