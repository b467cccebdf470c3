import type { Line } from '../../insight/history/shown';
import type { Followed, Mark } from '../../insight/history/series';
import { besideWords, followedWords, slopeWords, trendWords } from '../../insight/history/trend-words';
import { settingsOf, type Limits } from '../../settings';
import type { WeeksPicture } from './picture';

const DRAWN: Readonly<Record<Followed, string>> = {
  margin: 'the weakest variation’s supported margin: 0 at the limit of holds, 1 at the ideal',
  contrast: 'accents less soft strokes, in dB',
  balance: 'right hand less left, in dB',
  lag: 'right hand less left, in ms: positive, the right is late',
};

/** What will stand in a picture that has nothing in it yet. */
const WILL: Readonly<Record<Followed, string>> = {
  margin: 'from the first take that is graded on',
  contrast: 'from the first take with accents and soft strokes on',
  balance: 'from the first take with soft strokes of both hands on',
  lag: 'from the first take of both hands on',
};

/** What pictures under one time axis share. */
export interface Shared {
  readonly days: readonly [number, number];
  readonly marks: readonly Mark[];
}

/** A figure over weeks as a picture, titled with its finding. */
export function weeksPicture(line: Line, shared: Shared, limits: Limits): WeeksPicture {
  const { what, points, kind, trend, coldTrend } = line;
  const cold = besideWords(what, coldTrend);
  const slope = slopeWords(what, trend);
  return {
    kind: 'weeks',
    name: what,
    title: `${trendWords(what, trend, kind)}${cold === '' ? '' : `; ${cold}`}`,
    of: slope === '' ? 'no slope yet' : slope,
    drawn: DRAWN[what],
    points,
    trend,
    ...shared,
    empty: points.length === 0 ? `${followedWords[what]} will stand here, ${WILL[what]}.` : '',
    limit: limitOf(what, limits),
  };
}

function limitOf(what: Followed, limits: Limits): number | null {
  const settings = settingsOf(limits);
  switch (what) {
    case 'margin':
      return 0;
    case 'contrast':
      return settings['contrast.holds'];
    case 'balance':
      return settings['balanceSoft.holds'];
    case 'lag':
      return settings['lag.holds'];
  }
}
