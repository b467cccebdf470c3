import type { Line } from '../../insight/history/shown';
import type { Followed, Mark } from '../../insight/history/series';
import { besideWords, slopeWords, trendWords } from '../../insight/history/trend-words';
import { settingsOf, type Limits } from '../../settings';
import type { WeeksPicture } from './picture';

const DRAWN: Readonly<Record<Followed, string>> = {
  ceiling: 'the tempo at which four bars of five hold, in bpm; an arrow: at least',
  margin: 'the weakest variation’s supported margin: 0 at the limit of holds, 1 at the ideal',
  contrast: 'accents less soft strokes, in dB',
  balance: 'right hand less left, in dB',
};

/** A figure over weeks as a picture, titled with its finding. */
export function weeksPicture(line: Line, marks: readonly Mark[], limits: Limits): WeeksPicture {
  const { what, of, points, kind, trend, coldTrend } = line;
  const cold = besideWords(what, coldTrend);
  const slope = slopeWords(what, trend);
  return {
    kind: 'weeks',
    name: what,
    title: `${trendWords(what, trend, of, kind)}${cold === '' ? '' : `; ${cold}`}`,
    of: slope === '' ? 'no slope yet' : slope,
    drawn: DRAWN[what],
    points,
    trend,
    marks,
    limit: limitOf(what, limits),
  };
}

function limitOf(what: Followed, limits: Limits): number | null {
  const settings = settingsOf(limits);
  switch (what) {
    case 'ceiling':
      return null;
    case 'margin':
      return 0;
    case 'contrast':
      return settings['contrast.holds'];
    case 'balance':
      return settings['balanceSoft.holds'];
  }
}
