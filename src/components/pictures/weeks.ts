import type { Line } from '../../practice/history/shown';
import type { Followed, Mark } from '../../practice/history/series';
import { trendWords } from '../../practice/history/trend-words';
import { settingsOf, type Limits } from '../../settings';
import type { WeeksPicture } from './picture';

const DRAWN: Readonly<Record<Followed, string>> = {
  ceiling: 'bpm, the tempo at which four bars of five hold; an arrow: at least',
  margin: 'supported margin of the weakest variation: 0 at the limit of holds, 1 at the ideal',
  contrast: 'dB between accents and soft strokes',
  balance: 'dB, right hand less left',
};

/** A figure over weeks as a picture, titled with its finding. */
export function weeksPicture(line: Line, marks: readonly Mark[], limits: Limits): WeeksPicture {
  const { what, of, points, kind, trend, coldTrend } = line;
  const cold = coldTrend?.kind === 'told' ? ` ${trendWords(what, coldTrend, of, 'cold')}.` : '';
  const crosses = points.some((point) => point.cold) ? '; dots: warm takes, crosses: cold ones' : '';
  return {
    kind: 'weeks',
    name: what,
    title: `${trendWords(what, trend, of, kind)}.${cold}`,
    of: 'a point a day',
    drawn: `${DRAWN[what]}; thin lines: 90 %${crosses}`,
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
