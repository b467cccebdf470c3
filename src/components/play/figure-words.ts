import type { FigureName, FigureNow } from '../../take/live/figures';
import { fixed, signed } from '../shared/numbers';
import type { LiveFigure } from '../shared/types';

/** What a number is called where one is chosen. */
export const figureTitles: Readonly<Record<FigureName, string>> = {
  contrast: 'Contrast',
  'soft level': 'Soft strokes',
  'leak before': 'Tap before an accent',
  'leak after': 'Tap after an accent',
  balance: 'Balance of the hands',
  'early or late': 'Early or late',
  scatter: 'Scatter',
};

const words: Readonly<Record<FigureName, string>> = {
  contrast: 'accents over soft strokes',
  'soft level': 'soft strokes',
  'leak before': 'tap before its accent',
  'leak after': 'tap after its accent',
  balance: 'right less left',
  'early or late': 'early − or late +',
  scatter: 'scatter',
};

/** The one number as Play shows it: its value with its unit, words and aim. */
export function figureLine(name: FigureName, now: FigureNow | null): LiveFigure {
  const hand = now?.hand === 'R' ? 'right ' : now?.hand === 'L' ? 'left ' : '';
  return {
    value: now?.value ?? null,
    unit: now?.unit ?? (name === 'scatter' || name === 'early or late' ? 'ms' : 'dB'),
    heights: '',
    words: `${hand}${words[name]}`,
    aim: now === null ? '' : aimWords(now),
  };
}

/**
 * What stands under the one number: heights first, then its unit and aim.
 * @example figureUnder({ value: 12, unit: 'dB', heights: '', words: 'contrast', aim: 'aim 12 dB or more' })
 * // => dB, contrast · aim 12 dB or more
 */
export function figureUnder({ heights, unit, words: what, aim }: LiveFigure): string {
  return [heights, `${unit}, ${what}`, aim].filter((part) => part !== '').join(' · ');
}

/** What a hand's own number is of, for the far view: of balance, each hand's level. */
export function handWords(name: FigureName): string {
  return name === 'balance' ? 'soft strokes of each hand' : words[name];
}

/**
 * What to aim at, in words.
 * @example aimWords({ aim: 12, side: 'least' }) // => 'aim 12 or more'
 * @example aimWords({ aim: 2, side: 'most' }) // => 'aim 2 or less'
 */
export function aimWords({ aim, side }: Pick<FigureNow, 'aim' | 'side'>): string {
  const limit = fixed(aim, Number.isInteger(aim) ? 0 : 1);
  switch (side) {
    case 'least':
      return `aim ${limit} or more`;
    case 'most':
      return `aim ${limit} or less`;
    case 'within':
      return `aim within ${limit}`;
  }
}

/** Where above or below nought matters a number has its sign. */
export function figureNumber(name: FigureName, value: number | null): string {
  if (value === null) return '–';
  return name === 'contrast' || name === 'scatter' ? fixed(value, 1) : signed(value, 1);
}
