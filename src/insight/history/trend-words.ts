import { count, fixed, signed } from '../../words/numbers';
import type { Followed } from './series';
import type { Trend } from './trend';

/** What is followed, as it begins a sentence. */
export const followedWords: Readonly<Record<Followed, string>> = {
  margin: 'Weakest margin',
  contrast: 'Contrast',
  balance: 'Balance of soft strokes',
  lag: 'Lag between hands',
};

/**
 * A figure as History writes it, with its unit. A margin has none: 0 is the *holds* limit, 1 the ideal.
 * @example figureWords('balance', -1.24) // => left louder by 1.2 dB
 * @example figureWords('margin', 0.25) // => +0.25
 */
export function figureWords(what: Followed, value: number): string {
  switch (what) {
    case 'margin':
      return signed(value, 2);
    case 'contrast':
      return `${fixed(value, 1)} dB`;
    case 'balance':
      if (fixed(Math.abs(value), 1) === '0.0') return 'even';
      return `${value > 0 ? 'right' : 'left'} louder by ${fixed(Math.abs(value), 1)} dB`;
    case 'lag':
      if (fixed(Math.abs(value), 0) === '0') return 'together';
      return `${value > 0 ? 'right' : 'left'} late by ${fixed(Math.abs(value), 0)} ms`;
  }
}

const VERBS = { up: 'rose', down: 'fell' } as const;

/**
 * The finding as a sentence without its full stop: what it was and what it is; or that nothing changed beyond noise.
 * @param kind which takes it is told by, where both kinds were played
 */
export function trendWords(what: Followed, trend: Trend, kind: '' | 'warm' | 'cold' = ''): string {
  const name = `${followedWords[what]}${kind === '' ? '' : ` of ${kind} takes`}`;
  if (trend.kind === 'too few') {
    const there = `there ${trend.points === 1 ? 'is' : 'are'} ${count(trend.points, 'day')} yet`;
    return `${name}: four days of takes over a week or more tell a change, ${there}`;
  }
  const { change, days, from, to } = trend;
  const time = timeWords(days[1] - days[0]);
  if (change === 'none') {
    return `${name}: no change beyond noise in ${time}, about ${figureWords(what, (from + to) / 2)}`;
  }
  const verb = what === 'balance' || what === 'lag' ? 'went' : VERBS[change];
  return `${name} ${verb} from ${figureWords(what, from)} to ${figureWords(what, to)} in ${time}`;
}

/** The slope and how sure it is; empty where there is none. */
export function slopeWords(what: Followed, trend: Trend): string {
  if (trend.kind === 'too few') return '';
  const { perWeek, interval } = trend;
  const unit = what === 'margin' ? '' : what === 'lag' ? ' ms' : ' dB';
  const [each, low, high] = [perWeek, ...interval].map((one) => signed(one, what === 'margin' ? 2 : 1));
  return `${each}${unit} a week, 90 % from ${low} to ${high}`;
}

/** What became of the cold takes, beside the warm ones; empty where they are too few to tell. */
export function besideWords(what: Followed, trend: Trend | null): string {
  if (trend?.kind !== 'known') return '';
  const { change, from, to } = trend;
  if (change === 'none')
    return `of cold takes no change beyond noise, about ${figureWords(what, (from + to) / 2)}`;
  return `of cold takes from ${figureWords(what, from)} to ${figureWords(what, to)}`;
}

function timeWords(days: number): string {
  const weeks = Math.round(days / 7);
  return weeks < 2 ? `${count(Math.round(days), 'day')}` : count(weeks, 'week');
}
