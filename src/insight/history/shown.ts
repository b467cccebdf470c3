import type { Ceiling } from '../ceiling';
import type { TakeSummary } from '../../sessions/take-record';
import type { HistoryView } from './view';
import { ceilingSeries, ceilingsNow } from './ceilings';
import { phrasesPlayed, rigsPlayed, type Choice } from './choices';
import { coldTakes } from './cold';
import { byDay } from './days';
import { weeksPlayed, type WeekPlayed } from './minutes';
import { followed, marksOf, seriesOf, takesOf, type Followed, type Mark, type SeriesPoint } from './series';
import { dayOf } from './weeks';
import { trendOf, type Trend } from './trend';

/** One figure over weeks, with what became of it. */
export interface Line {
  readonly what: Followed;
  /** The variation; empty for the phrase. */
  readonly of: string;
  /** Cold and warm, in the order of days. */
  readonly points: readonly SeriesPoint[];
  /** Of which takes the trend is: warm ones, unless only the cold ones are enough. Empty where there is one kind. */
  readonly kind: '' | 'warm' | 'cold';
  readonly trend: Trend;
  /** That of the cold takes, where the trend is of the warm ones. */
  readonly coldTrend: Trend | null;
}

/** All that History shows of one player's takes. */
export interface HistoryShown {
  readonly phrases: readonly Choice[];
  readonly phrase: Choice;
  readonly rigs: readonly Choice[];
  readonly rig: Choice;
  readonly variations: readonly string[];
  /** The one whose ceiling is drawn; null for the phrase's. */
  readonly variation: string | null;
  readonly lines: readonly Line[];
  readonly marks: readonly Mark[];
  readonly ceilings: { readonly phrase: Ceiling; readonly variations: ReadonlyMap<string, Ceiling> };
  readonly takes: number;
  /** Days of the first take and the last. */
  readonly from: number;
  readonly to: number;
  readonly cold: number;
  /** Takes that have no figures: not graded, or not to be graded. */
  readonly ungraded: number;
  readonly weeks: readonly WeekPlayed[];
}

/** @returns undefined where nothing was played */
export function historyShown(
  takes: readonly TakeSummary[],
  view: HistoryView,
  sheetWords: (sheetId: string) => string,
  eastMinutes: number,
): HistoryShown | undefined {
  const phrases = phrasesPlayed(takes);
  const phrase = phrases.find(({ id }) => id === view.phraseKey) ?? phrases.at(0);
  if (phrase === undefined) return undefined;
  const rigs = rigsPlayed(takes, phrase.id);
  const rig = rigs.find(({ id }) => id === view.rigId) ?? rigs[0];
  const own = takesOf(takes, phrase.id, rig.id);
  const cold = coldTakes(takes);
  const ceilings = ceilingsNow(own);
  const variations = [...ceilings.variations.keys()];
  const variation = variations.find((name) => name === view.variation) ?? null;
  const onRig = takes
    .filter(({ rigId }) => rigId === rig.id)
    .sort((a, b) => (a.recordedAt < b.recordedAt ? -1 : 1));
  const { title } = own[0];
  return {
    phrases,
    phrase,
    rigs,
    rig,
    variations,
    variation,
    lines: followed.flatMap((what) => {
      const points =
        what === 'ceiling'
          ? ceilingSeries(own, variation, cold, eastMinutes)
          : byDay(seriesOf(own, what, cold, eastMinutes));
      return points.length === 0 ? [] : [lineOf(what, what === 'ceiling' ? (variation ?? '') : '', points)];
    }),
    marks: marksOf(onRig, { phraseKey: phrase.id, title }, sheetWords, eastMinutes),
    ceilings,
    takes: own.length,
    from: dayOf(own[0].recordedAt, eastMinutes),
    to: dayOf(own[own.length - 1].recordedAt, eastMinutes),
    cold: own.filter(({ id }) => cold.has(id)).length,
    ungraded: own.filter(({ graded }) => graded === null).length,
    weeks: weeksPlayed(takes, eastMinutes),
  };
}

function lineOf(what: Followed, of: string, points: readonly SeriesPoint[]): Line {
  const [cold, warm] = [true, false].map((kind) => points.filter((point) => point.cold === kind));
  if (cold.length === 0 || warm.length === 0) {
    return { what, of, points, kind: '', trend: trendOf(points), coldTrend: null };
  }
  const [ofWarm, ofCold] = [trendOf(warm), trendOf(cold)];
  const byCold = ofWarm.kind === 'too few' && ofCold.kind === 'told';
  return byCold
    ? { what, of, points, kind: 'cold', trend: ofCold, coldTrend: null }
    : { what, of, points, kind: 'warm', trend: ofWarm, coldTrend: ofCold };
}
